import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

type Bytes = Buffer | string;

/** A key and its value, or a key alone where it goes. */
interface Write {
  readonly type: 'put' | 'del';
  readonly key: Bytes;
  readonly value?: Bytes;
}

type Done = (error?: Error) => void;

interface Down {
  _open: (options: object, done: Done) => void;
  _put: (key: Bytes, value: Bytes, options: object, done: Done) => void;
  _del: (key: Bytes, options: object, done: Done) => void;
  _batch: (writes: readonly Write[], options: object, done: Done) => void;
}

export interface DiskDown {
  (location: string): Down;
  destroy(location: string, done: Done): void;
}

const require = createRequire(import.meta.url);

/** A store in memory that also writes a log of every batch to a folder, and reads it when it is opened: what a process
 *  had written before it was killed is there for the next one. A line that was cut off is as if it had never been. */
export function diskDown(folder: string): DiskDown {
  const memdown = require('memdown') as DiskDown;
  mkdirSync(folder, { recursive: true });
  const fileOf = (location: string): string => join(folder, encodeURIComponent(location));

  function down(location: string): Down {
    const memory = memdown(location);
    const open = memory._open.bind(memory);
    const batch = memory._batch.bind(memory);
    const file = fileOf(location);
    memory._open = (options, done) => {
      const log = existsSync(file) ? readFileSync(file, 'utf8') : '';
      const whole = log.slice(0, log.lastIndexOf('\n') + 1);
      if (whole !== log) writeFileSync(file, whole);
      for (const line of whole.split('\n').slice(0, -1)) batch(read(line), {}, () => undefined);
      open(options, done);
    };
    memory._batch = (writes, options, done) => {
      appendFileSync(file, written(writes));
      batch(writes, options, done);
    };
    memory._put = (key, value, options, done) =>
      memory._batch([{ type: 'put', key, value }], options, done);
    memory._del = (key, options, done) => memory._batch([{ type: 'del', key }], options, done);
    return memory;
  }
  const destroy: DiskDown['destroy'] = (location, done) => {
    rmSync(fileOf(location), { force: true });
    memdown.destroy(location, done);
  };
  return Object.assign(down, { destroy });
}

/** A line of the log. Keys that are text stay text: the store sorts text and bytes by themselves. */
function written(writes: readonly Write[]): string {
  const kept = writes.map(({ type, key, value = '' }) =>
    type === 'put' ? [keptOf(key), keptOf(value)] : [keptOf(key)],
  );
  return `${JSON.stringify(kept)}\n`;
}

type Kept = string | { readonly base64: string };

function read(line: string): readonly Write[] {
  const kept = JSON.parse(line) as readonly (readonly [Kept] | readonly [Kept, Kept])[];
  return kept.map(([key, value]) =>
    value === undefined
      ? { type: 'del', key: bytesOf(key) }
      : { type: 'put', key: bytesOf(key), value: bytesOf(value) },
  );
}

function keptOf(bytes: Bytes): Kept {
  return typeof bytes === 'string' ? bytes : { base64: bytes.toString('base64') };
}

function bytesOf(kept: Kept): Bytes {
  return typeof kept === 'string' ? kept : Buffer.from(kept.base64, 'base64');
}
