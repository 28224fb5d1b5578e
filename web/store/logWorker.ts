import { Sha256 } from '../../src/book/sha256.ts';
import { assess } from '../../src/survey/assess.ts';
import { readCsv } from '../../src/survey/csv/readCsv.ts';
import { IMPORT_ROWS } from '../../src/survey/kinds/import.ts';
import { fault } from '../../src/survey/csv/fault.ts';
import {
  LogReader,
  NOT_TEXT,
  UTF8,
  type Known,
  type LogRead,
  type ReadLogOptions,
} from '../../src/survey/log/readLog.ts';
import { handOver } from '../../src/survey/log/handOver.ts';
import { withSeries, withoutSeries } from '../../src/survey/log/withSeries.ts';
import { readUnit, type CountedUnit } from '../../src/survey/units.ts';
import type { FileRead, KeptFile, LogAnswer, LogJob, LogProgress } from './logJobs.ts';

/** Reads CSV files and judges logs off the page's own thread, so that the page never waits. It holds a file's readings
 *  only as long as it lives: ending it is how work is cancelled, and leaves nothing behind. */

const PIECE = 1 << 20;
/** No log of so few bytes is too long to be kept row by row. */
const LEAST_KEPT = 100_000;

/** Kept files that were read already, by entry and units. */
const known = new Map<string, LogRead>();

self.onmessage = ({ data: job }: MessageEvent<LogJob>): void => {
  const done = job.do === 'read' ? readFile(job.file, job.given) : assessed(job);
  done.then(say, (error: unknown) => {
    say({ is: 'failed', reason: error instanceof Error ? error.message : String(error) });
  });
};

function say(answer: LogAnswer): void {
  self.postMessage(answer);
}

async function readFile(file: Blob, given: Readonly<Record<string, string>>): Promise<LogAnswer> {
  const units = unitsOf(given);
  const packer = file.size > LEAST_KEPT ? new Packer() : undefined;
  const log = await readLogFrom(() => pieces(file), file.size, units, packer);
  if (log === undefined) return { is: 'read', read: { read: await readWhole(file, units) } };
  if (log.recognised.counts.rows <= IMPORT_ROWS || packer === undefined) {
    // Few enough for an entry of rows, in which each reading can be struck by itself.
    const read = log.ok ? await readWhole(file, units) : bare(log);
    return { is: 'read', read: { read } };
  }
  return { is: 'read', read: { read: bare(log), packed: await packer.packed() } };
}

async function assessed({ survey, files }: Extract<LogJob, { do: 'assess' }>): Promise<LogAnswer> {
  const logs = new Map<string, LogRead>();
  for (const file of files) logs.set(file.entry, await readKept(file));
  return { is: 'assessed', assessment: handOver(assess(withSeries(survey, logs))) };
}

async function readKept({ entry, data, sha256, given }: KeptFile): Promise<LogRead> {
  const key = `${entry} ${JSON.stringify(given)}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const packer = new Packer('check only');
  const unpacked = (): AsyncIterable<Uint8Array> =>
    chunksOf(data.stream().pipeThrough(new DecompressionStream('gzip')));
  const read = await readLogFrom(unpacked, undefined, unitsOf(given), packer);
  if (packer.hex() !== sha256) {
    throw new Error('the kept file is not what it was when it was taken in');
  }
  if (read?.ok !== true) throw new Error('the kept file can no longer be read as a log');
  known.set(key, read);
  return read;
}

/** Reads a log from its pieces; undefined where the file is none. `size`: in bytes, where known. */
async function readLogFrom(
  open: () => AsyncIterable<Uint8Array>,
  size: number | undefined,
  units: { readonly units: Readonly<Record<string, CountedUnit>> },
  packer: Packer | undefined,
): Promise<LogRead | undefined> {
  let options: ReadLogOptions & Known = units;
  for (let turn = 0; turn < 4; turn += 1) {
    const reader = new LogReader(options);
    let seen = 0;
    for await (const piece of open()) {
      if (turn === 0) await packer?.push(piece);
      reader.push(piece);
      seen += piece.length;
      const progress: LogProgress = {
        rows: reader.rows,
        share: size === undefined ? NaN : seen / size,
      };
      say({ is: 'progress', progress });
    }
    const outcome = reader.finish();
    if (outcome.is === 'no log') return undefined;
    if (outcome.is === 'read') return outcome.read;
    options = outcome.options;
  }
  throw new Error('the log asked to be read again without end');
}

async function readWhole(
  file: Blob,
  units: { readonly units: Readonly<Record<string, CountedUnit>> },
): Promise<FileRead['read']> {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
    return readCsv(text, units);
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    const read = readCsv('');
    const unread = fault(1, '', NOT_TEXT, UTF8);
    return read.ok ? read : { ...read, faults: [unread] };
  }
}

async function* pieces(file: Blob): AsyncIterable<Uint8Array> {
  for (let at = 0; at < file.size; at += PIECE) {
    yield new Uint8Array(await file.slice(at, at + PIECE).arrayBuffer());
  }
}

async function* chunksOf(stream: ReadableStream<Uint8Array>): AsyncIterable<Uint8Array> {
  const reader = stream.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    yield value;
  }
}

/** Gzips and hashes what is pushed to it; or only hashes it. */
class Packer {
  readonly #hash = new Sha256();
  readonly #writer: WritableStreamDefaultWriter<Uint8Array<ArrayBuffer>> | undefined;
  readonly #packed: Promise<Blob> | undefined;

  constructor(as: 'pack' | 'check only' = 'pack') {
    if (as === 'check only') return;
    const { readable, writable } = new CompressionStream('gzip');
    this.#writer = writable.getWriter();
    this.#packed = new Response(readable).blob();
  }

  async push(bytes: Uint8Array): Promise<void> {
    this.#hash.update(bytes);
    await this.#writer?.write(bytes.slice());
  }

  hex(): string {
    return this.#hash.hex();
  }

  async packed(): Promise<{ data: Blob; sha256: string }> {
    await this.#writer?.close();
    if (this.#packed === undefined) throw new Error('nothing was packed');
    const blob = await this.#packed;
    return { data: blob.slice(0, blob.size, 'application/gzip'), sha256: this.hex() };
  }
}

function unitsOf(given: Readonly<Record<string, string>>): {
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

/** Without the readings themselves, which the page does not need. */
function bare(read: LogRead): LogRead {
  return read.ok
    ? { ...read, survey: withoutSeries(read.survey) }
    : { ...read, partial: withoutSeries(read.partial) };
}
