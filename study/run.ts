import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { FAMILIES } from './families.ts';
import { HELD_OUT } from './heldOut.ts';
import { RUNS_STEP, type Cell } from './plan.ts';
import { studyJson, studyText } from './table.ts';

const USAGE = `npm run -s study -- [--runs N] [--seed N] [--held-out] [--json]
  --runs      runs a shape, noise and edge length at the tolerance, in multiples of ${RUNS_STEP}; half of them elsewhere
  --seed      another set of reading errors
  --held-out  shapes drawn at random instead of the study's own
`;
const RUNS = 48;
const SEED = 20261125;

const asked = read();
if ('fault' in asked) {
  process.stderr.write(`${asked.fault}\n${USAGE}`);
  process.exitCode = 2;
} else {
  const { runs, seed, heldOut, json } = asked;
  const study = { seed, runs, cells: await allCells(runs, seed, heldOut) };
  process.stdout.write(json ? `${JSON.stringify(studyJson(study))}\n` : studyText(study));
}

function read() {
  try {
    const { values } = parseArgs({
      options: {
        runs: { type: 'string', default: String(RUNS) },
        seed: { type: 'string', default: String(SEED) },
        'held-out': { type: 'boolean', default: false },
        json: { type: 'boolean', default: false },
      },
    });
    const runs = whole(values.runs);
    if (runs % RUNS_STEP !== 0 || runs === 0) {
      throw new RangeError(`--runs: a multiple of ${RUNS_STEP} expected, got ${values.runs}`);
    }
    return { runs, seed: whole(values.seed), heldOut: values['held-out'], json: values.json };
  } catch (error) {
    if (error instanceof RangeError || error instanceof TypeError) return { fault: error.message };
    throw error;
  }
}

function whole(text: string): number {
  if (!/^\d{1,9}$/.test(text)) throw new RangeError(`a whole number expected, got ${text}`);
  return Number(text);
}

/** Families are dealt out to workers as they come free; the answer has them in their own order, and does not
 *  depend on how many workers there are. */
async function allCells(runs: number, seed: number, heldOut: boolean): Promise<Cell[]> {
  const families = heldOut ? HELD_OUT : FAMILIES;
  const found: Cell[][] = [];
  let next = 0;
  let done = 0;
  const work = () =>
    new Promise<void>((resolve, reject) => {
      const worker = fork(fileURLToPath(new URL('./worker.ts', import.meta.url)));
      let index = -1;
      const deal = () => {
        if (next === families.length) {
          worker.disconnect();
          resolve();
          return;
        }
        index = next++;
        worker.send({ index, runs, seed, heldOut });
      };
      worker.on('error', reject);
      worker.on('exit', (status) => {
        if (status !== 0) reject(new Error(`a worker ended with status ${status}`));
      });
      worker.on('message', (cells) => {
        found[index] = cells as Cell[];
        process.stderr.write(`${++done} of ${families.length}: ${families[index].name}\n`);
        deal();
      });
      deal();
    });
  await Promise.all(
    Array.from({ length: Math.min(availableParallelism(), families.length) }, work),
  );
  return found.flat();
}
