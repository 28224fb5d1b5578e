import type { Attachment } from '../../src/book/attachment.ts';
import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import type { Database } from './database.ts';
import { entryIn, leavesIn, readAttachments } from './entryStore.ts';

/** The entry file of a database, with entries and files that are known besides. */
export async function fileOf(
  database: Database,
  known: readonly Entry[],
  waiting: readonly Attachment[],
): Promise<string> {
  const entries = [...(await readEntries(database)), ...known];
  return writeEntryFile(bookOf(entries), withWaiting(await readAttachments(database), waiting));
}

/** Attachments, and those that are not among them yet. */
export function withWaiting(
  there: readonly Attachment[],
  waiting: readonly Attachment[],
): readonly Attachment[] {
  const keyOf = ({ entry, name }: Attachment): string => `${entry} ${name}`;
  const known = new Set(there.map(keyOf));
  return [...there, ...waiting.filter((each) => !known.has(keyOf(each)))];
}

/** Every content of every entry of a database. */
export async function readEntries(database: Database): Promise<readonly Entry[]> {
  return (await leavesIn(database)).flatMap((leaf) => {
    const read = entryIn(leaf);
    return read.ok ? [read.entry] : [];
  });
}
