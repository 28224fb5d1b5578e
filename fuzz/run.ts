import { fork } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { casesOf } from './cases.ts';

/** Damages good files at random and reads them: 10,000 CSV files and 10,000 entry files unless said otherwise.
 *  `npm run fuzz [-- CASES [SEED [FIRST]]]`; the same seed makes the same files. Prints what became of them, and each
 *  case in which something broke, was lost without a word or took longer than 2 s of the processor, with what to type to see it again.
 *  Exit status 1 where there is one. */
const [casesAsked = '10000', seedAsked = '20261128', firstAsked = '0'] = process.argv.slice(2);
const CASES = Number(casesAsked);
const SEED = Number(seedAsked);
const FIRST = Number(firstAsked);
/** How long one file may take, ms of the processor: what else the machine does is not the file's. */
const LONGEST = 2_000;
/** Without a word for so long, ms, a case is taken to hang. */
const PATIENCE = 20_000;

interface Told {
  readonly of: 'csv' | 'entries';
  readonly nth: number;
  readonly counts?: Readonly<Record<string, number>>;
  readonly failure?: string;
  readonly time?: number;
}

const print = (line: string): void => void process.stdout.write(`${line}\n`);

if (process.send === undefined) await watch();
else work();

/** In a process of its own, so that one that hangs can be ended. */
function work(): void {
  const cases = casesOf(SEED);
  const tell = (told: Told): void => void process.send?.(told);
  for (const of of ['csv', 'entries'] as const) {
    for (let nth = FIRST; nth < FIRST + CASES; nth += 1) {
      const { made, text, attempt } = cases[of](nth);
      tell({ of, nth });
      const began = process.cpuUsage();
      try {
        const counts = attempt();
        const { user, system } = process.cpuUsage(began);
        const time = (user + system) / 1000;
        if (time > LONGEST) tell({ of, nth, failure: `${made}: ${time.toFixed(0)} ms` });
        tell({ of, nth, counts, time });
      } catch (error) {
        const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
        const file = join(tmpdir(), `fuzz-${of}-${nth}.txt`);
        writeFileSync(file, text);
        tell({
          of,
          nth,
          failure: `${made}; kept as ${file}\n    ${words.split('\n').slice(0, 4).join('\n    ')}`,
        });
      }
    }
  }
  process.disconnect();
}

function watch(): Promise<void> {
  print(`seed ${SEED}, cases ${FIRST} to ${FIRST + CASES - 1}`);
  const sums = { csv: new Map<string, number>(), entries: new Map<string, number>() };
  const slowest = { csv: 0, entries: 0 };
  const none = 0;
  let failures = 0;
  const fail = ({ of, nth }: Told, words: string): void => {
    failures += 1;
    process.exitCode = 1;
    if (failures <= 20)
      print(`${of} ${nth}: ${words}\n    again: npm run fuzz -- 1 ${SEED} ${nth}`);
  };
  const child = fork(fileURLToPath(import.meta.url), process.argv.slice(2), {
    execArgv: ['--import', 'tsx'],
  });
  let last: Told | undefined;
  let patience: NodeJS.Timeout | undefined;
  const wait = (): void => {
    clearTimeout(patience);
    patience = setTimeout(() => {
      if (last !== undefined) fail(last, `no answer within ${PATIENCE / 1000} s`);
      child.kill('SIGKILL');
    }, PATIENCE);
  };
  wait();
  child.on('message', (message) => {
    wait();
    last = message as Told;
    const { of, counts, failure, time = 0 } = last;
    if (failure !== undefined) fail(last, failure);
    slowest[of] = Math.max(slowest[of], time);
    for (const [what, count] of Object.entries(counts ?? {})) {
      sums[of].set(what, (sums[of].get(what) ?? none) + count);
    }
  });
  return new Promise((resolve) => {
    child.on('exit', (code) => {
      clearTimeout(patience);
      if (last === undefined) {
        process.exitCode = 1;
        print('nothing was tried: the process that reads the files did not begin');
        resolve();
        return;
      }
      if (code !== 0) fail(last, 'the process ended there');
      for (const of of ['csv', 'entries'] as const) {
        const told = [...sums[of]].map(([what, count]) => `${count} ${what}`).join(', ');
        print(
          `${of === 'csv' ? 'CSV files, places of a gap' : 'entry files, lines'}: ${told}; slowest ${slowest[of].toFixed(0)} ms`,
        );
      }
      print(`${failures} of ${2 * CASES} went wrong`);
      resolve();
    });
  });
}
