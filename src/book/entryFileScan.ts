import type { AttachmentPart } from './attachment.ts';
import type { Entry } from './entry.ts';
import { FILE_HEAD, FILE_VERSION, LINE_LIMIT, readLine } from './fileLine.ts';
import { Sha256 } from './sha256.ts';

/** What is wrong at a place of an entry file. */
export interface FileFault {
  /** Line, from 1; one past the last where something is missing at the end. */
  readonly row: number;
  /** Which piece of the line: version, line, crc, entry, attachment, end, count or sha256. */
  readonly column: string;
  readonly found: string;
  readonly expected: string;
}

/** What a line holds: an entry or a part that was not there before, a text that cannot be read, or neither, as with a
 *  first line, a last one and what came already. */
export type Scanned =
  | { readonly is: 'entry'; readonly entry: Entry }
  /** `digest`: of the whole line, to know it again by. */
  | { readonly is: 'part'; readonly part: AttachmentPart; readonly digest: string }
  | { readonly is: 'unread' }
  | { readonly is: 'nothing' };

const NOTHING: Scanned = { is: 'nothing' };
const UNREAD: Scanned = { is: 'unread' };

/** Reads an entry file line by line and keeps none of it, so that a file of any length can be looked through. Each line
 *  vouches for itself; what is damaged is reported with its place and the next is read. Never throws. */
export class EntryFileScan {
  readonly #faults: FileFault[] = [];
  readonly #hash = new Sha256();
  /** Rows of entries by the digests of their lines. */
  readonly #rows = new Map<string, number>();
  #row = 0;
  /** Lines between the first and the last. */
  #lines = 0;
  #ended = false;

  /** The next line, without its line end. */
  take(line: string): Scanned {
    this.#row += 1;
    if (this.#row === 1 && this.#isHead(line)) {
      this.#seen(line);
      return NOTHING;
    }
    const read = readLine(line);
    if (this.#ended) this.#report('line', 'a line after the last', 'the end of the file');
    if (read.is === 'end') {
      if (!this.#ended) this.#end(read);
      this.#ended = true;
      return NOTHING;
    }
    this.#count(line);
    if (read.is === 'fault') {
      this.#report(read.column, read.found, read.expected);
      return UNREAD;
    }
    const digest = digestOf(line);
    if (read.is === 'attachment') return { is: 'part', part: read.part, digest };
    const known = this.#rows.get(digest);
    if (known !== undefined) {
      this.#report('entry', `the entry of line ${known} again`, 'each entry once');
      return NOTHING;
    }
    this.#rows.set(digest, this.#row);
    return { is: 'entry', entry: read.entry };
  }

  /** A line that is longer than any that is looked at, in place of `take`. */
  takeTooLong(length: number): Scanned {
    this.#row += 1;
    if (this.#row === 1) this.#reportHead('a line that is too long');
    this.#report('line', `${length} bytes`, `at most ${LINE_LIMIT} characters`);
    if (!this.#ended) this.#lines += 1;
    return UNREAD;
  }

  /** What is wrong with the file, once every line was taken. */
  faults(): readonly FileFault[] {
    if (this.#row === 0) {
      this.#row = 1;
      this.#reportHead('an empty file');
      this.#row = 0;
    }
    if (!this.#ended && !this.#faults.some(({ column }) => column === 'end')) {
      this.#row += 1;
      this.#report('end', 'the end of the file', 'a last line with count and SHA-256');
    }
    return this.#faults;
  }

  /** Whether the first line is a version line, if a damaged one, rather than a line of its own. */
  #isHead(line: string): boolean {
    if (line === `${FILE_HEAD}${FILE_VERSION}`) return true;
    this.#reportHead(line.slice(0, 60));
    return readLine(line).is === 'fault';
  }

  #reportHead(found: string): void {
    this.#report('version', found, `${FILE_HEAD}${FILE_VERSION}`);
  }

  #end(end: { readonly lines: number; readonly sha256: string }): void {
    const digest = this.#hash.hex();
    if (end.lines !== this.#lines) {
      this.#report('count', `${this.#lines} lines`, `${end.lines} lines`);
    }
    if (end.sha256 !== digest) this.#report('sha256', digest, end.sha256);
  }

  #count(line: string): void {
    if (this.#ended) return;
    this.#lines += 1;
    this.#seen(line);
  }

  #seen(line: string): void {
    this.#hash.update(new TextEncoder().encode(`${line}\n`));
  }

  #report(column: string, found: string, expected: string): void {
    this.#faults.push({ row: this.#row, column, found, expected });
  }
}

function digestOf(line: string): string {
  const hash = new Sha256();
  hash.update(new TextEncoder().encode(line));
  return hash.hex();
}
