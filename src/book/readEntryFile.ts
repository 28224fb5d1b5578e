import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

import type { Attachment } from './attachment.ts';
import { type Book, bookOf } from './book.ts';
import type { Entry } from './entry.ts';
import { FILE_HEAD, FILE_VERSION, readLine } from './fileLine.ts';
import { PartGatherer } from './partGatherer.ts';

/** What is wrong at a place of an entry file. */
export interface FileFault {
  /** Line, from 1; one past the last where something is missing at the end. */
  readonly row: number;
  /** Which piece of the line: version, line, crc, entry, attachment, end, count or sha256. */
  readonly column: string;
  readonly found: string;
  readonly expected: string;
}

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
  const faults: FileFault[] = [];
  const unread: { row: number; text: string }[] = [];
  const entries: Entry[] = [];
  const rowOf = new Map<string, number>();
  const gatherer = new PartGatherer();
  const report = (row: number, column: string, found: string, expected: string): void => {
    faults.push({ row, column, found, expected });
  };

  const headed = readHead(lines.at(0), report);
  const hash = sha256.create();
  const seen = (line: string): void => {
    hash.update(new TextEncoder().encode(`${line}\n`));
  };
  if (headed) seen(lines[0]);

  let ended = false;
  lines.forEach((line, index) => {
    if (headed && index === 0) return;
    const row = index + 1;
    const read = readLine(line);
    if (ended) report(row, 'line', 'a line after the last', 'the end of the file');
    if (read.is === 'end') {
      if (!ended) checkEnd(read, index - (headed ? 1 : 0), bytesToHex(hash.digest()), row, report);
      ended = true;
      return;
    }
    if (!ended) seen(line);
    if (read.is === 'fault') {
      report(row, read.column, read.found, read.expected);
      unread.push({ row, text: line });
    } else if (read.is === 'attachment') {
      gatherer.add(read.part, row, line);
    } else if (rowOf.has(read.text)) {
      report(row, 'entry', `the entry of line ${rowOf.get(read.text)} again`, 'each entry once');
    } else {
      rowOf.set(read.text, row);
      entries.push(read.entry);
    }
  });
  if (!ended && !faults.some((fault) => fault.column === 'end')) {
    report(lines.length + 1, 'end', 'the end of the file', 'a last line with count and SHA-256');
  }

  const gathered = gatherer.result();
  faults.push(...gathered.faults);
  unread.push(...gathered.unread);
  return {
    book: bookOf(entries),
    attachments: gathered.attachments,
    faults: faults.sort((a, b) => a.row - b.row),
    unread: unread.sort((a, b) => a.row - b.row),
  };
}

type Report = (row: number, column: string, found: string, expected: string) => void;

function linesOf(text: string): readonly string[] {
  const lines = text
    .replace(/^\ufeff/, '')
    .replaceAll('\r\n', '\n')
    .split('\n');
  if (lines.at(-1) === '') lines.pop();
  return lines;
}

/** Whether the first line is a version line, if a damaged one, rather than a line of its own. */
function readHead(line: string | undefined, report: Report): boolean {
  const expected = `${FILE_HEAD}${FILE_VERSION}`;
  if (line === expected) return true;
  report(1, 'version', line === undefined ? 'an empty file' : line.slice(0, 60), expected);
  return line !== undefined && readLine(line).is === 'fault';
}

function checkEnd(
  end: { readonly lines: number; readonly sha256: string },
  lines: number,
  digest: string,
  row: number,
  report: Report,
): void {
  if (end.lines !== lines) report(row, 'count', `${lines} lines`, `${end.lines} lines`);
  if (end.sha256 !== digest) report(row, 'sha256', digest, end.sha256);
}
