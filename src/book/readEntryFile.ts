import type { Attachment } from './attachment.ts';
import { type Book, bookOf } from './book.ts';
import type { Entry } from './entry.ts';
import { EntryFileScan, type FileFault } from './entryFileScan.ts';
import { PartGatherer } from './partGatherer.ts';

export type { FileFault } from './entryFileScan.ts';

export interface EntryFileRead {
  readonly book: Book;
  readonly attachments: readonly Attachment[];
  /** Empty when the file is whole, in the order of rows. */
  readonly faults: readonly FileFault[];
  /** The lines that could not be read, as they stand, so that nothing is lost by reading. */
  readonly unread: readonly { readonly row: number; readonly text: string }[];
}

/** Reads an entry file. What is damaged is reported with its place and the rest is read: each line vouches for itself
 *  with its CRC-32, also under a version line that is damaged or not known; the last line tells whether any is gone.
 *  A byte order mark and CRLF line ends, which mail and editors add, are no fault. Never throws. */
export function readEntryFile(text: string): EntryFileRead {
  const lines = linesOf(text);
  const scan = new EntryFileScan();
  const entries: Entry[] = [];
  const unread: number[] = [];
  const gatherer = new PartGatherer<string>();
  lines.forEach((line, index) => {
    const scanned = scan.take(line);
    if (scanned.is === 'entry') entries.push(scanned.entry);
    else if (scanned.is === 'unread') unread.push(index + 1);
    else if (scanned.is === 'part') {
      const { base64, ...header } = scanned.part;
      gatherer.add(header, { row: index + 1, digest: scanned.digest, piece: base64 });
    }
  });
  const gathered = gatherer.result();
  return {
    book: bookOf(entries),
    attachments: gathered.whole.map(({ pieces, ...named }) => ({
      ...named,
      base64: pieces.join(''),
    })),
    faults: [...scan.faults(), ...gathered.faults].sort((a, b) => a.row - b.row),
    unread: [...unread, ...gathered.unread]
      .sort((a, b) => a - b)
      .map((row) => ({ row, text: lines[row - 1] })),
  };
}

function linesOf(text: string): readonly string[] {
  const lines = text
    .replace(/^\ufeff/, '')
    .replaceAll('\r\n', '\n')
    .split('\n');
  if (lines.at(-1) === '') lines.pop();
  return lines;
}
