import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

import { type Attachment, partsOf } from './attachment.ts';
import { type Book, entriesOf } from './book.ts';
import { attachmentLine, endLine, entryLine, FILE_HEAD, FILE_VERSION } from './fileLine.ts';

/** The text of an entry file, line by line with line ends, for books whose attachments should not stand in memory a
 *  second time. The same book gives the same text, whatever order its entries came in: entries by id, each content of
 *  a conflict on a line of its own, then attachments by entry and name.
 *  Throws RangeError on an attachment out of form, and where two have one entry and name. */
export function* entryFileLines(
  book: Book,
  attachments: readonly Attachment[] = [],
): Generator<string, void, undefined> {
  const hash = sha256.create();
  const passed = (line: string): string => {
    const text = `${line}\n`;
    hash.update(new TextEncoder().encode(text));
    return text;
  };
  let lines = 0;
  yield passed(`${FILE_HEAD}${FILE_VERSION}`);
  for (const entry of entriesOf(book)) {
    lines += 1;
    yield passed(entryLine(entry));
  }
  for (const attachment of inOrder(attachments)) {
    for (const part of partsOf(attachment)) {
      lines += 1;
      yield passed(attachmentLine(part));
    }
  }
  yield `${endLine(lines, bytesToHex(hash.digest()))}\n`;
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
