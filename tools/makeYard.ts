import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';

import { bookOf } from '../src/book/book.ts';
import { writeEntryFile } from '../src/book/writeEntryFile.ts';
import { dayOf } from '../src/seasons/season.ts';
import { madeHull, USUAL_PLAN, type YardPlan } from './madeYard.ts';

/** Hulls in one file: a file is read in one piece, and one of a hundred hulls is some 3 MB. */
const A_FILE = 100;

const usage = `npm run make-yard -- [--hulls ${USUAL_PLAN.hulls}] [--surveys ${USUAL_PLAN.surveys}] [--lines ${USUAL_PLAN.lines}] [--stations ${USUAL_PLAN.stations}]
                     [--seed ${USUAL_PLAN.seed}] [--until ${USUAL_PLAN.until}] [--out yard.aftrun]
Writes entry files of hulls that do not exist, at most ${A_FILE} hulls a file: yard.aftrun, or yard-01.aftrun and so on.`;

/** Entry files of a made yard, named after `out`. */
function* files(plan: YardPlan, out: string): Generator<readonly [name: string, text: string]> {
  const count = Math.ceil(plan.hulls / A_FILE);
  const digits = String(count).length;
  for (let file = 0; file < count; file += 1) {
    const entries = [];
    const end = Math.min(plan.hulls, (file + 1) * A_FILE);
    for (let nth = file * A_FILE; nth < end; nth += 1) entries.push(...madeHull(plan, nth));
    const nth = `-${String(file + 1).padStart(digits, '0')}`;
    const name = count === 1 ? out : out.replace(/(\.[^./\\]*)?$/, (ending) => nth + ending);
    yield [name, writeEntryFile(bookOf(entries))];
  }
}

function asked(): { readonly plan: YardPlan; readonly out: string } | undefined {
  const text = { type: 'string' } as const;
  try {
    const { values } = parseArgs({
      options: {
        ...{ hulls: text, surveys: text, lines: text, stations: text, seed: text },
        ...{ until: text, out: text },
      },
    });
    const { until = USUAL_PLAN.until, out = 'yard.aftrun' } = values;
    if (dayOf(until) !== until) return undefined;
    const count = (name: 'hulls' | 'surveys' | 'lines' | 'stations' | 'seed'): number =>
      /^\d{1,9}$/.test(values[name] ?? String(USUAL_PLAN[name]))
        ? Number(values[name] ?? USUAL_PLAN[name])
        : NaN;
    const plan = {
      hulls: count('hulls'),
      surveys: count('surveys'),
      lines: count('lines'),
      stations: count('stations'),
      seed: count('seed'),
      until,
    };
    return Object.values(plan).includes(NaN) || plan.hulls === 0 ? undefined : { plan, out };
  } catch {
    return undefined;
  }
}

const found = asked();
if (found === undefined) {
  process.stderr.write(`${usage}\n`);
  process.exitCode = 2;
} else {
  for (const [name, text] of files(found.plan, found.out)) {
    writeFileSync(name, text);
    process.stdout.write(`${name}\n`);
  }
}
