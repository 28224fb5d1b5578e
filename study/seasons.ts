import { parseArgs } from 'node:util';
import { GROUND, seasonTrial, STATIONS } from './seasonTrial.ts';

const USAGE = `npm run -s study:seasons -- [--pairs N] [--seed N]
  --pairs  pairs of surveys a row; a hull that did not move has four lines, one that did is one line
  --seed   another set of reading errors
`;

/** Stated and real uncertainty of a reading, in tolerances. The last two readers do not know their own scatter. */
const NOISES = [
  { stated: 0.1, real: 0.1 },
  { stated: 0.2, real: 0.2 },
  { stated: 0.1, real: 0.15 },
  { stated: 0.04, real: 0.08 },
] as const;

const LINES = 4;

const { pairs, seed } = read();
process.stdout.write(
  `T = ${GROUND.tolerance} mm; ${pairs} seeded pairs a row, seed ${seed}; a hull has moved where any of its ${LINES} lines has\n`,
);
for (const { stated, real } of NOISES) {
  for (const [name, stations] of Object.entries(STATIONS)) {
    const reading = {
      ...stations,
      stated: stated * GROUND.tolerance,
      real: real * GROUND.tolerance,
    };
    let hulls = 0;
    let lines = 0;
    let still = 0;
    for (let hull = 0; hull < pairs; hull++) {
      const found = Array.from({ length: LINES }, (_, line) =>
        seasonTrial([seed, hull, line], 0, reading),
      );
      const moved = found.filter((each) => each?.class === 'moved').length;
      lines += moved;
      still += found.filter((each) => each?.class === 'not moved').length;
      if (moved > 0) hulls++;
    }
    process.stdout.write(
      `noise ${stated} T stated, ${real} T real; ${name} stations; did not move: hull called moved ${percent(hulls, pairs)}, line ${percent(lines, pairs * LINES)}, line called not moved ${percent(still, pairs * LINES)}\n`,
    );
    for (const growth of [1, 1.5]) {
      let tried = 0;
      let caught = 0;
      let seen = 0;
      for (let hull = 0; hull < pairs; hull++) {
        const found = seasonTrial([seed, hull, 0], growth * GROUND.tolerance, reading);
        if (found === undefined) continue;
        tried++;
        if (found.class === 'moved') caught++;
        seen += found.visible / GROUND.tolerance;
      }
      process.stdout.write(
        `  grew by ${growth} T: called moved ${percent(caught, tried)} of ${tried}; smallest change said to be seen ${(seen / tried).toFixed(2)} T\n`,
      );
    }
  }
}

function percent(count: number, of: number): string {
  return `${((100 * count) / of).toFixed(1)} %`;
}

function read(): { readonly pairs: number; readonly seed: number } {
  try {
    const { values } = parseArgs({
      options: {
        pairs: { type: 'string', default: '1000' },
        seed: { type: 'string', default: '20261125' },
      },
    });
    return { pairs: whole(values.pairs), seed: whole(values.seed) };
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n${USAGE}`);
    process.exit(2);
  }
}

function whole(text: string): number {
  if (!/^[1-9]\d{0,8}$/.test(text)) throw new RangeError(`a whole number expected, got ${text}`);
  return Number(text);
}
