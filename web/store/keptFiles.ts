import type { LogRead } from '../../src/survey/log/readLog.ts';
import { withSeries } from '../../src/survey/log/withSeries.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { KeptFile, LogProgress } from './logJobs.ts';
import { Packer } from './packer.ts';
import { readLogFrom, unitsOf } from './readLogFrom.ts';

/** Longest log that is unpacked, bytes: as long as any that is taken in. Packed, it may be a thousand times shorter. */
const LONGEST = 1024 * 1024 * 1024;

/** Logs in kept files, each read once. */
export class KeptFiles {
  /** By entry, content and units. */
  readonly #known = new Map<string, LogRead>();
  readonly #longest: number;

  constructor(longest = LONGEST) {
    this.#longest = longest;
  }

  /** A survey with the readings of its logs. Rejects where a file is not what was kept, or can no longer be read. */
  async whole(
    survey: Survey,
    files: readonly KeptFile[],
    progress: (progress: LogProgress) => void = () => undefined,
  ): Promise<Survey> {
    const logs = new Map<string, LogRead>();
    for (const file of files) logs.set(file.entry, await this.#read(file, progress));
    return withSeries(survey, logs);
  }

  async #read(
    { entry, data, sha256, given }: KeptFile,
    progress: (progress: LogProgress) => void,
  ): Promise<LogRead> {
    const key = `${entry} ${sha256} ${JSON.stringify(given)}`;
    const before = this.#known.get(key);
    if (before !== undefined) return before;
    const packer = new Packer('check only');
    const unpacked = (): AsyncIterable<Uint8Array> =>
      chunksOf(data.stream().pipeThrough(new DecompressionStream('gzip')), this.#longest);
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

async function* chunksOf(
  stream: ReadableStream<Uint8Array>,
  longest: number,
): AsyncIterable<Uint8Array> {
  const reader = stream.getReader();
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    length += value.length;
    if (length > longest) {
      await reader.cancel();
      throw new Error('the kept file unpacks to more than any log that is taken in');
    }
    yield value;
  }
}
