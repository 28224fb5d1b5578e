import type { LogRead } from '../../src/survey/log/readLog.ts';
import type { KeptFile, LogProgress } from './logJobs.ts';
import { Packer } from './packer.ts';
import { readLogFrom, unitsOf } from './readLogFrom.ts';

/** Logs in kept files, each read once. */
export class KeptFiles {
  /** By entry and units. */
  readonly #known = new Map<string, LogRead>();

  /** Rejects where the file is not what was kept, or can no longer be read. */
  async read(
    { entry, data, sha256, given }: KeptFile,
    progress: (progress: LogProgress) => void,
  ): Promise<LogRead> {
    const key = `${entry} ${JSON.stringify(given)}`;
    const before = this.#known.get(key);
    if (before !== undefined) return before;
    const packer = new Packer('check only');
    const unpacked = (): AsyncIterable<Uint8Array> =>
      chunksOf(data.stream().pipeThrough(new DecompressionStream('gzip')));
    const units = unitsOf(given);
    const read = await readLogFrom(unpacked, { size: undefined, units, packer, progress });
    if (packer.hex() !== sha256) {
      throw new Error('the kept file is not what it was when it was taken in');
    }
    if (read?.ok !== true) throw new Error('the kept file can no longer be read as a log');
    this.#known.set(key, read);
    return read;
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
