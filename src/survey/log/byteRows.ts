/** One row as it stands in the bytes of a file. Valid only while it is being handed over. */
export interface ByteRow {
  readonly bytes: Uint8Array;
  /** Where each cell begins and ends, quotation marks left off. */
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  readonly cells: number;
  /** Line of the file on which it begins, from 1. */
  readonly row: number;
  /** The whole row. */
  readonly start: number;
  readonly end: number;
  /** True where its cells must be read by the rules of quoting: a doubled or stray quotation mark. */
  readonly odd: boolean;
}

export interface ByteRowsOptions {
  readonly delimiter: number;
  /** LF, or CR in a file that has no LF. */
  readonly newline: number;
  readonly firstRow: number;
  readonly take: (row: ByteRow) => void;
}

const QUOTE = 34;
const CR = 13;
const SPACES: readonly number[] = [32, 9, 11, 12, CR];
/** No row of a survey is as long, bytes. */
export const LONGEST_ROW = 4_000_000;

/** Splits the bytes of a CSV file (RFC 4180) into rows as they come, whatever the pieces they come in. The cells of
 *  nearly every row are found by one look at each byte; the few that quoting makes difficult are marked. */
export class ByteRows {
  /** Row in which a quotation mark was opened and never closed; nothing is taken after it. */
  unclosed: number | undefined;
  /** Row that is longer than any of a survey; nothing is taken after it. */
  tooLong: number | undefined;

  readonly #options: ByteRowsOptions;
  #carry = new Uint8Array(0);
  #row: number;
  /** One object for every row: a million of them would be a third of the time. */
  readonly #given: { -readonly [K in keyof ByteRow]: ByteRow[K] } = {
    bytes: this.#carry,
    starts: new Int32Array(0),
    ends: new Int32Array(0),
    cells: 0,
    row: 0,
    start: 0,
    end: 0,
    odd: false,
  };
  #found = { starts: new Int32Array(64), ends: new Int32Array(64) };

  constructor(options: ByteRowsOptions) {
    this.#options = options;
    this.#row = options.firstRow;
  }

  push(bytes: Uint8Array): void {
    this.#carry = this.#split(joined(this.#carry, bytes), false);
    if (this.#carry.length > LONGEST_ROW) this.#giveUp();
  }

  /** Takes the last row, which need not end in a line break. */
  finish(): void {
    if (this.#carry.length > 0) this.#split(this.#carry, true);
    this.#carry = new Uint8Array(0);
  }

  #giveUp(): void {
    this.tooLong ??= this.#row;
    this.#carry = new Uint8Array(0);
  }

  /** Hands over every whole row; what is left of the last one comes back. */
  #split(bytes: Uint8Array, last: boolean): Uint8Array<ArrayBuffer> {
    const { delimiter, newline, take } = this.#options;
    const n = bytes.length;
    let { starts, ends } = this.#found;
    let at = 0;
    const given = this.#given;
    while (at < n && this.unclosed === undefined && this.tooLong === undefined) {
      const start = at;
      let cells = 0;
      let odd = false;
      let lines = 1;
      let whole = false;
      while (!whole) {
        if (cells === starts.length) ({ starts, ends } = this.#room());
        if (at < n && bytes[at] === QUOTE) {
          const close = closing(bytes, at, delimiter, newline);
          // Without the byte after it, a mark that closes cannot be told from one that is doubled.
          if (close.at >= n || close.next >= n) {
            if (!last) return bytes.slice(start);
            if (close.at >= n) {
              this.unclosed = this.#row;
              return new Uint8Array(0);
            }
          }
          starts[cells] = at + 1;
          ends[cells] = close.at;
          odd ||= close.odd;
          lines += close.lines;
          at = close.next;
        } else {
          starts[cells] = at;
          while (at < n && bytes[at] !== delimiter && bytes[at] !== newline) at += 1;
          ends[cells] = at;
        }
        cells += 1;
        if (at >= n) {
          if (!last) return bytes.slice(start);
          whole = true;
        } else if (bytes[at] === newline) whole = true;
        else at += 1;
      }
      const end = at;
      const lastCell = cells - 1;
      if (ends[lastCell] === end && end > starts[lastCell] && bytes[end - 1] === CR) {
        ends[lastCell] = end - 1;
      }
      given.bytes = bytes;
      given.starts = starts;
      given.ends = ends;
      given.cells = cells;
      given.row = this.#row;
      given.start = start;
      given.end = end;
      given.odd = odd;
      take(given);
      this.#row += lines;
      at += 1;
    }
    return new Uint8Array(0);
  }

  #room(): { starts: Int32Array<ArrayBuffer>; ends: Int32Array<ArrayBuffer> } {
    const { starts, ends } = this.#found;
    const size = starts.length * 2;
    this.#found = { starts: new Int32Array(size), ends: new Int32Array(size) };
    this.#found.starts.set(starts);
    this.#found.ends.set(ends);
    return this.#found;
  }
}

/** Where the quoted cell that begins at a mark closes, and where what follows it stands. A mark that neither closes
 *  nor is doubled makes the row odd and the cell goes on, as the reader of odd rows has it. */
function closing(
  bytes: Uint8Array,
  open: number,
  delimiter: number,
  newline: number,
): { at: number; next: number; odd: boolean; lines: number } {
  const n = bytes.length;
  let odd = false;
  let lines = 0;
  for (let at = open + 1; at < n; at += 1) {
    const byte = bytes[at];
    if (byte === newline) lines += 1;
    if (byte !== QUOTE) continue;
    if (at + 1 < n && bytes[at + 1] === QUOTE) {
      odd = true;
      at += 1;
      continue;
    }
    let next = at + 1;
    while (next < n && bytes[next] !== delimiter && bytes[next] !== newline) {
      if (!SPACES.includes(bytes[next])) break;
      next += 1;
    }
    if (next >= n || bytes[next] === delimiter || bytes[next] === newline) {
      return { at, next, odd, lines };
    }
    odd = true;
  }
  return { at: n, next: n, odd, lines };
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  if (a.length === 0) return b;
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}
