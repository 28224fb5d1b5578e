import { type AttachmentPart, readPart } from './attachment.ts';
import { canonical } from './canonical.ts';
import { crc32 } from './crc32.ts';
import type { Entry } from './entry.ts';
import { readEntry } from './envelope.ts';
import { cut } from './plain.ts';

/** The lines of an entry file, version 1. Text is UTF-8; a line ends with LF; words are parted by one space.
 *
 *      aftrun entry file 1
 *      entry <CRC-32> <entry as canonical JSON>
 *      attachment <CRC-32> <{ entry, name, part, parts, type } as canonical JSON> <base64>
 *      end <number of lines between the first and this> <SHA-256 of all text before this line>
 *
 *  A CRC-32 is taken over what follows it on its line, in 8 lower-case hexadecimal digits; the SHA-256 (FIPS 180-4)
 *  has 64. */
export const FILE_HEAD = 'aftrun entry file ';
export const FILE_VERSION = 1;
/** Longest line that is looked at, in UTF-16 code units. */
export const LINE_LIMIT = 32_000_000;

export type FileLine =
  | { readonly is: 'entry'; readonly entry: Entry; readonly text: string }
  | { readonly is: 'attachment'; readonly part: AttachmentPart }
  | { readonly is: 'end'; readonly lines: number; readonly sha256: string }
  | LineFault;

/** A line that cannot be read: which piece of it (`column`), what stood there, what was expected. */
export interface LineFault {
  readonly is: 'fault';
  readonly column: string;
  readonly found: string;
  readonly expected: string;
}

/** The line of an entry, without its line end. */
export function entryLine(entry: Entry): string {
  return checked('entry', canonical(entry));
}

/** The line of an attachment's part, without its line end. */
export function attachmentLine({ base64, ...header }: AttachmentPart): string {
  return checked('attachment', `${canonical(header)} ${base64}`);
}

/** The last line, without its line end. */
export function endLine(lines: number, sha256: string): string {
  return `end ${lines} ${sha256}`;
}

/** Reads one line after the first; never throws. */
export function readLine(line: string): FileLine {
  if (line.length > LINE_LIMIT) {
    return fault('line', `${line.length} characters`, `at most ${LINE_LIMIT}`);
  }
  const end = /^end (0|[1-9]\d{0,8}) ([0-9a-f]{64})$/.exec(line);
  if (end !== null) return { is: 'end', lines: Number(end[1]), sha256: end[2] };
  const start = /^(entry|attachment) ([0-9a-f]{8}) /.exec(line);
  if (start === null) {
    const found = line === '' ? 'an empty line' : cut(line);
    if (line.startsWith('end ')) return fault('end', found, 'end, the count and a SHA-256');
    return fault('line', found, 'entry or attachment, and a CRC-32');
  }
  const rest = line.slice(start[0].length);
  const sum = crcText(rest);
  if (sum !== start[2]) return fault('crc', `a line whose CRC-32 is ${sum}`, start[2]);
  return start[1] === 'entry' ? readEntryText(rest) : readAttachmentText(rest);
}

function readEntryText(text: string): FileLine {
  const parsed = parsedJson(text);
  if (!parsed.ok) return fault('entry', cut(text), 'JSON');
  const read = readEntry(parsed.value);
  if (!read.ok) return fault('entry', read.found, read.reason);
  if (!isCanonical(read.entry, text)) return notCanonical('entry');
  return { is: 'entry', entry: read.entry, text };
}

function readAttachmentText(text: string): FileLine {
  const space = text.lastIndexOf(' ');
  if (space < 0) return fault('attachment', cut(text), 'JSON, a space and base64');
  const header = text.slice(0, space);
  const parsed = parsedJson(header);
  if (!parsed.ok) return fault('attachment', cut(text), 'JSON, a space and base64');
  const read = readPart(parsed.value, text.slice(space + 1));
  if (!read.ok) return fault('attachment', read.found, read.expected);
  if (!isCanonical(parsed.value, header)) return notCanonical('attachment');
  return { is: 'attachment', part: read.part };
}

/** Text that would be written differently lost something when it was read: a member that came twice, a digit that no
 *  number here can hold. */
function isCanonical(value: unknown, text: string): boolean {
  return canonical(value) === text;
}

function notCanonical(column: string): LineFault {
  return fault(column, 'JSON that would not be written again as it stands', 'canonical JSON');
}

function parsedJson(text: string): { readonly ok: true; readonly value: unknown } | { ok: false } {
  try {
    return { ok: true, value: JSON.parse(text) as unknown };
  } catch {
    return { ok: false };
  }
}

function checked(word: string, rest: string): string {
  return `${word} ${crcText(rest)} ${rest}`;
}

function crcText(text: string): string {
  return crc32(new TextEncoder().encode(text)).toString(16).padStart(8, '0');
}

function fault(column: string, found: string, expected: string): LineFault {
  return { is: 'fault', column, found, expected };
}
