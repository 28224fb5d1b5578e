import { EntryFileWriter } from '../../../src/book/entryFileWriter.ts';
import { reasonOf } from '../reasonOf.ts';
import type { RecordPiece } from './hullRecord.ts';

/** A hull as the backup names it. */
export interface NamedHull {
  readonly hull: string;
  readonly name: string;
}

export interface BackupProgress {
  /** Hulls that are written. */
  readonly hulls: number;
  readonly of: number;
  readonly entries: number;
  readonly files: number;
  /** Characters written; the file has about as many bytes. */
  readonly written: number;
}

export interface BackupOptions {
  readonly hulls: readonly NamedHull[];
  readonly record: (hull: string) => AsyncIterable<RecordPiece>;
  /** Takes a piece of the file's text; the next is made when it has. */
  readonly write: (text: string) => Promise<void>;
  /** Lets the page breathe. */
  readonly pause: () => Promise<void>;
  readonly progress: (progress: BackupProgress) => void;
  readonly stopped: () => boolean;
}

/** What a backup holds. */
export interface BackupWritten extends BackupProgress {
  /** How many entries the file holds of each hull that could be read. */
  readonly entriesOf: ReadonlyMap<string, number>;
  /** What could not be taken into the file, in words. Empty where it holds everything. */
  readonly leftOut: readonly string[];
}

export class Stopped extends Error {
  override readonly name = 'Stopped';
}

/** Characters of text that are handed on at once. */
const PIECE = 1_000_000;

/** Writes one entry file of some hulls, piece by piece. A hull that cannot be read is left out and named; the others
 *  are written. Rejects with `Stopped` when the person has stopped it, and with what `write` rejects with. */
export async function writeBackup(options: BackupOptions): Promise<BackupWritten> {
  const { hulls, record, write, pause, progress, stopped } = options;
  const writer = new EntryFileWriter();
  const leftOut: string[] = [];
  const entriesOf = new Map<string, number>();
  const done = { hulls: 0, of: hulls.length, entries: 0, files: 0, written: 0 };
  let held = writer.head();

  const handOn = async (): Promise<void> => {
    const text = held;
    held = '';
    await write(text);
    done.written += text.length;
    progress({ ...done });
    await pause();
    if (stopped()) throw new Stopped('the backup was stopped');
  };

  for (const { hull, name } of hulls) {
    let entries = 0;
    let whole = true;
    const pieces = record(hull)[Symbol.asyncIterator]();
    for (;;) {
      const next = await pieces.next().catch((error: unknown) => {
        leftOut.push(`${name}: ${reasonOf(error)}`);
        whole = false;
        return undefined;
      });
      if (next === undefined || next.done === true) break;
      const piece = next.value;
      if (piece.is === 'left out') leftOut.push(`${name}: ${piece.what}`);
      else if (piece.is === 'entry') {
        held += writer.entry(piece.entry);
        entries += 1;
        done.entries += 1;
      } else {
        held += writer.part(piece.part);
        if (piece.part.part === piece.part.parts) done.files += 1;
      }
      if (held.length >= PIECE) {
        try {
          await handOn();
        } catch (error) {
          // Lets the hull's database go.
          await pieces.return?.();
          throw error;
        }
      }
    }
    done.hulls += 1;
    if (whole) entriesOf.set(hull, entries);
    await handOn();
  }
  held += writer.end();
  await handOn();
  return { ...done, entriesOf, leftOut };
}
