import {
  LogReader,
  type Known,
  type LogRead,
  type ReadLogOptions,
} from '../../src/survey/log/readLog.ts';
import { readUnit, type CountedUnit } from '../../src/survey/units.ts';
import type { LogProgress } from './logJobs.ts';
import type { Packer } from './packer.ts';

export interface LogSource {
  /** In bytes, where known. */
  readonly size: number | undefined;
  readonly units: { readonly units: Readonly<Record<string, CountedUnit>> };
  /** What is read is pushed to it, once. */
  readonly packer: Packer | undefined;
  readonly progress: (progress: LogProgress) => void;
}

/** Reads a log from its pieces; undefined where the file is none. */
export async function readLogFrom(
  open: () => AsyncIterable<Uint8Array>,
  { size, units, packer, progress }: LogSource,
): Promise<LogRead | undefined> {
  let options: ReadLogOptions & Known = units;
  for (let turn = 0; turn < 4; turn += 1) {
    const reader = new LogReader(options);
    let seen = 0;
    for await (const piece of open()) {
      if (turn === 0) await packer?.push(piece);
      reader.push(piece);
      seen += piece.length;
      progress({ rows: reader.rows, share: size === undefined ? NaN : seen / size });
    }
    const outcome = reader.finish();
    if (outcome.is === 'no log') return undefined;
    if (outcome.is === 'read') return outcome.read;
    options = outcome.options;
  }
  throw new Error('the log asked to be read again without end');
}

/** Units as a person gave them, "1/32 in", by column. */
export function unitsOf(given: Readonly<Record<string, string>>): {
  units: Readonly<Record<string, CountedUnit>>;
} {
  return {
    units: Object.fromEntries(
      Object.entries(given).flatMap(([column, unit]) => {
        const counted = readUnit(unit);
        return counted === undefined ? [] : [[column, counted]];
      }),
    ),
  };
}
