import {
  type Attachment,
  type AttachmentPart,
  PART_LIMIT,
  partsOf,
} from '../../../src/book/attachment.ts';
import { bookOf, entriesOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { readEntryFile } from '../../../src/book/readEntryFile.ts';
import { base64Of } from '../base64.ts';
import type { Database } from '../database.ts';
import { entryIn, filesOf, leavesIn, type StoredFile } from '../entryStore.ts';
import { reasonOf } from '../reasonOf.ts';

/** One piece of a hull's record, or something that lies in its database and could not be taken with it. */
export type RecordPiece =
  | { readonly is: 'entry'; readonly entry: Entry }
  | { readonly is: 'part'; readonly part: AttachmentPart }
  | { readonly is: 'left out'; readonly what: string };

/** What a database holds of a hull, its files by name only. */
export interface HullContents {
  readonly entries: readonly Entry[];
  readonly files: readonly StoredFile[];
  /** Documents that are no entries, in words. */
  readonly leftOut: readonly string[];
}

/** Bytes that make one part of an attachment: three make four characters of base64. */
const PART_BYTES = (PART_LIMIT / 4) * 3;

/** Reads what a hull's database holds, with entries that are known besides. */
export async function contentsOf(
  database: Database,
  known: readonly Entry[],
): Promise<HullContents> {
  const leaves = await leavesIn(database);
  const entries: Entry[] = [...known];
  const leftOut: string[] = [];
  for (const leaf of leaves) {
    const read = entryIn(leaf);
    if (read.ok) entries.push(read.entry);
    else leftOut.push(`${leaf._id}, which is no entry: ${read.reason}, found ${read.found}`);
  }
  return { entries: entriesOf(bookOf(entries)), files: filesOf(leaves), leftOut };
}

/** A hull's record piece by piece, entries first; of its files one part at a time stands in memory. A file that cannot
 *  be read is named, and the next is read. `waiting`: files that are not saved yet. */
export async function* recordOf(
  database: Database,
  { entries, files, leftOut }: HullContents,
  waiting: readonly Attachment[],
): AsyncGenerator<RecordPiece> {
  for (const entry of entries) yield { is: 'entry', entry };
  for (const what of leftOut) yield { is: 'left out', what };
  for (const { entry, name, type, rev } of files.toSorted(byEntryAndName)) {
    try {
      const options = rev === undefined ? undefined : { rev };
      const file = await database.getAttachment(entry, name, options);
      const parts = Math.max(1, Math.ceil(file.size / PART_BYTES));
      for (let part = 1; part <= parts; part += 1) {
        const slice = file.slice((part - 1) * PART_BYTES, part * PART_BYTES);
        const base64 = base64Of(new Uint8Array(await slice.arrayBuffer()));
        yield { is: 'part', part: { entry, name, type, part, parts, base64 } };
      }
    } catch (error) {
      yield { is: 'left out', what: `${name} of ${entry}: ${reasonOf(error)}` };
    }
  }
  const saved = new Set(files.map(({ entry, name }) => `${entry} ${name}`));
  for (const attachment of waiting) {
    if (saved.has(`${attachment.entry} ${attachment.name}`)) continue;
    for (const part of partsOf(attachment)) yield { is: 'part', part };
  }
}

/** The pieces of an entry file that was read past the database. */
export function* recordIn(text: string): Generator<RecordPiece> {
  const { book, attachments, faults } = readEntryFile(text);
  for (const entry of entriesOf(book)) yield { is: 'entry', entry };
  for (const attachment of attachments) {
    for (const part of partsOf(attachment)) yield { is: 'part', part };
  }
  for (const { column, found } of faults) yield { is: 'left out', what: `${column}: ${found}` };
}

function byEntryAndName(a: StoredFile, b: StoredFile): number {
  if (a.entry !== b.entry) return a.entry < b.entry ? -1 : 1;
  return a.name < b.name ? -1 : 1;
}
