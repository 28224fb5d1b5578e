import { LINE_LIMIT } from '../../../src/book/fileLine.ts';

/** A line of a file, from its first byte to the one behind its last, line end apart. */
export interface PlacedLine {
  /** Absent where the line is longer than any that is looked at. */
  readonly text: string | undefined;
  readonly from: number;
  readonly to: number;
}

/** UTF-8 takes at most three bytes for a UTF-16 code unit. */
const BYTES_LIMIT = 3 * LINE_LIMIT;
const LF = 10;

/** The lines of a file as they come from the device, each batch what one piece of it completes; never more of the file
 *  in memory than a line and a piece. A byte order mark is no part of the first line, and CR LF is one line end. */
export async function* fileLines(file: Blob): AsyncGenerator<readonly PlacedLine[]> {
  const reader = (file.stream() as ReadableStream<Uint8Array>).getReader();
  let held: Uint8Array[] = [];
  let heldBytes = 0;
  let from = 0;

  const line = (to: number): PlacedLine => {
    const bytes = heldBytes > BYTES_LIMIT ? undefined : joined(held);
    const text = bytes && textOf(bytes);
    const placed = { text: from === 0 ? text?.replace(/^\ufeff/, '') : text, from, to };
    held = [];
    heldBytes = 0;
    return placed;
  };
  const hold = (bytes: Uint8Array): void => {
    heldBytes += bytes.length;
    if (heldBytes > BYTES_LIMIT) held = [];
    else held.push(bytes);
  };

  let at = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    const lines: PlacedLine[] = [];
    let start = 0;
    for (;;) {
      const end = value.indexOf(LF, start);
      if (end < 0) break;
      hold(value.subarray(start, end));
      const ended = line(at + end);
      lines.push({ ...ended, text: ended.text?.replace(/\r$/, '') });
      start = end + 1;
      from = at + start;
    }
    if (start < value.length) hold(value.subarray(start));
    at += value.length;
    yield lines;
  }
  const last = heldBytes > 0 ? line(at) : undefined;
  if (last !== undefined && last.text !== '') yield [last];
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  if (pieces.length === 1) return pieces[0];
  const all = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}
