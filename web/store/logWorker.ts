import { readCsv } from '../../src/survey/csv/readCsv.ts';
import { IMPORT_ROWS } from '../../src/survey/kinds/import.ts';
import { MOST } from '../../src/survey/csv/splitFile.ts';
import { fault } from '../../src/survey/csv/fault.ts';
import { NOT_TEXT, UTF8, type LogRead } from '../../src/survey/log/readLog.ts';
import { withoutSeries } from '../../src/survey/log/withSeries.ts';
import type { CountedUnit } from '../../src/survey/units.ts';
import type { FileRead, LogAnswer, LogJob, LogProgress } from './logJobs.ts';
import { Packer } from './packer.ts';
import { readLogFrom, unitsOf } from './readLogFrom.ts';
import { reasonOf } from './reasonOf.ts';

/** Reads CSV files off the page's own thread, so that the page never waits. It holds a file's readings only as long as it
 *  lives: ending it is how work is cancelled, and leaves nothing behind. */

const PIECE = 1 << 20;
/** No log of so few bytes is too long to be kept row by row. */
const LEAST_KEPT = 100_000;

self.onmessage = ({ data: job }: MessageEvent<LogJob>): void => {
  readFile(job.file, job.given).then(say, (error: unknown) => {
    say({ is: 'failed', reason: reasonOf(error) });
  });
};

function say(answer: LogAnswer): void {
  self.postMessage(answer);
}

function progress(progress: LogProgress): void {
  say({ is: 'progress', progress });
}

async function readFile(file: Blob, given: Readonly<Record<string, string>>): Promise<LogAnswer> {
  const units = unitsOf(given);
  const packer = file.size > LEAST_KEPT ? new Packer() : undefined;
  const log = await readLogFrom(() => pieces(file), { size: file.size, units, packer, progress });
  if (log === undefined) return { is: 'read', read: { read: await readWhole(file, units) } };
  if (log.recognised.counts.rows <= IMPORT_ROWS || packer === undefined) {
    // Few enough for an entry of rows, in which each reading can be struck by itself.
    const read = log.ok ? await readWhole(file, units) : bare(log);
    return { is: 'read', read: { read } };
  }
  return { is: 'read', read: { read: bare(log), packed: await packer.packed() } };
}

async function readWhole(
  file: Blob,
  units: { readonly units: Readonly<Record<string, CountedUnit>> },
): Promise<FileRead['read']> {
  // A character takes up to four bytes.
  if (file.size > 4 * MOST.characters) return unread(`${Math.round(file.size / 1e6)} MB`, LOG);
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
    return readCsv(text, units);
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    return unread(NOT_TEXT, UTF8);
  }
}

const LOG = 'a survey of less; a log of so much says # kind: log above its header';

function unread(found: string, expected: string): FileRead['read'] {
  const read = readCsv('');
  return read.ok ? read : { ...read, faults: [fault(1, '', found, expected)] };
}

async function* pieces(file: Blob): AsyncIterable<Uint8Array> {
  for (let at = 0; at < file.size; at += PIECE) {
    yield new Uint8Array(await file.slice(at, at + PIECE).arrayBuffer());
  }
}

/** Without the readings themselves, which the page does not need. */
function bare(read: LogRead): LogRead {
  return read.ok
    ? { ...read, survey: withoutSeries(read.survey) }
    : { ...read, partial: withoutSeries(read.partial) };
}
