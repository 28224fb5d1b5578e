import { delimiterOf, findHeader, withoutMark, type Delimiter } from '../csv/splitFile.ts';
import { clip, fault, type Fault } from '../csv/fault.ts';

/** Where the header of a file stands in its bytes, and what stands above it. */
export interface LogTop {
  readonly delimiter: Delimiter;
  readonly newline: number;
  /** `#` lines as written. */
  readonly lines: readonly { readonly row: number; readonly text: string }[];
  /** Line of the header, and its place in the bytes. */
  readonly row: number;
  readonly start: number;
}

export type LogTopRead =
  { readonly ok: true; readonly top: LogTop } | { readonly ok: false; readonly fault: Fault };

/** Bytes in which the header of any survey stands. */
export const HEAD_BYTES = 1 << 20;

/** Finds the header in the first bytes of a file. What follows the head may end in the middle of a letter. */
export function readTop(bytes: Uint8Array): LogTopRead {
  // A decoder that waits for more lets a letter that is cut off at the end be.
  const decoded = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes, {
    stream: true,
  });
  const marked = decoded.startsWith('\ufeff');
  const text = withoutMark(decoded);
  const refuse = (found: string, expected: string): LogTopRead => ({
    ok: false,
    fault: fault(1, '', clip(found), expected),
  });
  if (text.trim() === '') return refuse('', 'a CSV file with a header and a row a reading');
  if (text.includes('\u0000')) {
    return refuse('characters that are not text', 'a CSV file as plain text in UTF-8');
  }
  const found = findHeader(text);
  if (found === undefined) return refuse('no header', 'a header row after the # lines');
  const before = new TextEncoder().encode(text.slice(0, found.start)).length;
  return {
    ok: true,
    top: {
      delimiter: found.delimiter ?? delimiterOf(found.header),
      newline: decoded.includes('\n') ? 10 : 13,
      lines: found.lines,
      row: found.row,
      start: before + (marked ? 3 : 0),
    },
  };
}
