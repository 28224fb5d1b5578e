import { readHead, type FileHead } from '../csv/fileHead.ts';
import { decimalOf, hashText, type SplitFile } from '../csv/splitFile.ts';
import { ByteRows, type ByteRow } from './byteRows.ts';
import type { LogTop } from './logHead.ts';
import { logPlan } from './logPlan.ts';
import { LogRows } from './logRows.ts';
import type { Known, ReadLogOptions } from './readLog.ts';

/** Rows in which a decimal comma is looked for beforehand; one that comes later has the file read again. */
const LOOKED_AT = 2000;

/** A log whose top is known: how its rows are read and where they begin. */
export interface Begun {
  readonly top: LogTop;
  readonly file: SplitFile;
  readonly head: FileHead;
  readonly rows: LogRows;
  readonly bytes: ByteRows;
  /** Where the first row after the header begins. */
  readonly from: number;
}

/** Begins a log from its first bytes: the header, a decimal comma where the first rows show one, and what is to be done
 *  with every row. Undefined where the file says that it is none. */
export function beginLog(
  top: LogTop,
  bytes: Uint8Array,
  options: ReadLogOptions & Known,
): Begun | undefined {
  const { delimiter, newline } = top;
  const common = { delimiter: delimiter.charCodeAt(0), newline };
  const first: string[][] = [];
  let from = bytes.length;
  let firstRow = top.row + 1;
  const decoder = new TextDecoder();
  const look = (row: ByteRow): void => {
    if (first.length >= LOOKED_AT) return;
    const { starts, ends, cells } = row;
    const texts = Array.from({ length: cells }, (_, c) =>
      decoder.decode(row.bytes.subarray(starts[c], ends[c])).replaceAll('""', '"'),
    );
    first.push(texts);
    if (first.length > 1) return;
    from = top.start + row.end + 1;
    firstRow = row.row + 1 + newlines(row, newline);
  };
  const peeking = new ByteRows({ ...common, firstRow: top.row, take: look });
  peeking.push(bytes.subarray(top.start));
  peeking.finish();
  const [headerCells, ...rest] = first;
  // A quotation mark that is never closed swallows the header; `readCsv` says so.
  if (headerCells === undefined) return undefined;
  const header = { row: top.row, cells: headerCells };
  const hashLines = top.lines.map(({ row, text }) => ({
    row,
    text: hashText(text, delimiter, headerCells.length),
  }));
  const decimal =
    options.decimal ??
    decimalOf(
      rest.map((cells) => ({ row: 0, cells })),
      delimiter,
    );
  const file: SplitFile = {
    delimiter,
    decimal,
    hashLines: [...hashLines, ...(options.lateLines ?? [])],
    header,
    rows: [],
  };
  const head = readHead(file, options);
  if (head.conditions.stated.kind !== 'log') return undefined;
  const plan = logPlan(head.head, head.units);
  const rows = new LogRows({
    plan,
    head: head.head,
    units: head.units,
    file,
    workUnit: head.workUnit,
  });
  const take = head.readable ? (row: ByteRow) => rows.take(row) : (row: ByteRow) => rows.pass(row);
  return { top, file, head, rows, bytes: new ByteRows({ ...common, firstRow, take }), from };
}

function newlines({ bytes, start, end }: ByteRow, newline: number): number {
  let count = 0;
  for (let at = start; at < end; at += 1) if (bytes[at] === newline) count += 1;
  return count;
}
