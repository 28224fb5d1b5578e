import { parseArgs } from 'node:util';
import { keptOf, promiseTrial, TOLERANCE, type Foretold } from './promiseTrial.ts';

const USAGE = `npm run -s study:promises -- [--lines N] [--seed N]
  --lines  undecided lines; four acts are foretold and carried out on each
  --seed   other shapes and reading errors
`;

const { lines, seed } = read();
const all: Foretold[] = [];
for (let line = 0, found = 0; found < lines; line++) {
  const trial = promiseTrial(seed, line);
  all.push(...trial);
  if (trial.length > 0) found++;
}
process.stdout.write(
  `T = ${TOLERANCE} mm; ${lines} undecided lines, seed ${seed}: how often an act was said to decide, and how often it did\n`,
);
tell('all', all);
for (const act of [...new Set(all.map((each) => each.act))]) {
  tell(
    act,
    all.filter((each) => each.act === act),
  );
}
for (const from of [0, 0.15, 0.35, 0.55, 0.75]) {
  const to = from === 0 ? 0.15 : from + 0.2;
  tell(
    `said ${percent(from)} to ${percent(Math.min(1, to))}`,
    all.filter(({ promised }) => promised >= from && (promised < to || to >= 0.95)),
  );
}

function tell(name: string, some: readonly Foretold[]): void {
  if (some.length === 0) return;
  const { count, promised, kept, luck } = keptOf(some);
  process.stdout.write(
    `${name.padEnd(16)}${String(count).padStart(6)}  said ${percent(promised)}  did ${percent(kept)} (luck alone ± ${percent(2 * luck)})\n`,
  );
}

function percent(share: number): string {
  return (100 * share).toFixed(1);
}

function read(): { lines: number; seed: number } {
  const { values } = parseArgs({
    options: { lines: { type: 'string', default: '200' }, seed: { type: 'string', default: '1' } },
  });
  const [lines, seed] = [values.lines, values.seed].map(Number);
  if (!Number.isInteger(lines) || lines < 1 || !Number.isInteger(seed)) {
    process.stderr.write(USAGE);
    process.exit(2);
  }
  return { lines, seed };
}
