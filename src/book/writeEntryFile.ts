import { type Attachment, partsOf } from './attachment.ts';
import { type Book, entriesOf } from './book.ts';
import { EntryFileWriter } from './entryFileWriter.ts';

/** The text of an entry file, line by line with line ends, for books whose attachments should not stand in memory a
 *  second time. The same book gives the same text, whatever order its entries came in: entries by id, each content of
 *  a conflict on a line of its own, then attachments by entry and name.
 *  Throws RangeError on an attachment out of form, and where two have one entry and name. */
export function* entryFileLines(
  book: Book,
  attachments: readonly Attachment[] = [],
): Generator<string, void, undefined> {
  const writer = new EntryFileWriter();
  yield writer.head();
  for (const entry of entriesOf(book)) yield writer.entry(entry);
  for (const attachment of inOrder(attachments)) {
    for (const part of partsOf(attachment)) yield writer.part(part);
  }
  yield writer.end();
}

/** The text of an entry file in one piece: see `entryFileLines`. */
export function writeEntryFile(book: Book, attachments: readonly Attachment[] = []): string {
  return [...entryFileLines(book, attachments)].join('');
}

function inOrder(attachments: readonly Attachment[]): readonly Attachment[] {
  const sorted = attachments.toSorted(byEntryAndName);
  sorted.forEach((attachment, index) => {
    if (index > 0 && byEntryAndName(sorted[index - 1], attachment) === 0) {
      throw new RangeError(
        `attachments: got ${JSON.stringify(attachment.name)} of ${attachment.entry} twice, expected each once`,
      );
    }
  });
  return sorted;
}

function byEntryAndName(a: Attachment, b: Attachment): number {
  if (a.entry !== b.entry) return a.entry < b.entry ? -1 : 1;
  return a.name < b.name ? -1 : a.name > b.name ? 1 : 0;
}
