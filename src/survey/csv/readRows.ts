import { FARTHEST_OFFSET, OFFSET_EXPECTED } from '../bounds.ts';
import type { Typed } from '../survey.ts';
import type { CountedUnit } from '../units.ts';
import type { Column, LengthColumn, LineHead } from './columns.ts';
import { fault, type Fault, type Warning } from './fault.ts';
import type { MeasuredRow } from './measuredRow.ts';
import { readVoidMark } from './readCell.ts';
import { readShared, readTyped, type Shared } from './readShared.ts';
import { readSide } from './readSide.ts';
import { RowReader, type ColumnPlan } from './rowReader.ts';
import type { FileRow, SplitFile } from './splitFile.ts';

export interface RowsRead {
  readonly rows: readonly MeasuredRow[];
  readonly faults: readonly Fault[];
  readonly warnings: readonly Warning[];
  /** Cells where a gap could stand and none does. */
  readonly blank: number;
}

/** Reads every row by itself: text to mm, words to sides and reasons. A row with a fault is left out as a whole (in
 *  the wide form, a faulty cell alone); what rows say together is looked at later. */
export function readRows(
  columns: readonly Column[],
  units: ReadonlyMap<LengthColumn, CountedUnit>,
  file: SplitFile,
): RowsRead {
  const rows: MeasuredRow[] = [];
  const faults: Fault[] = [];
  const warnings: Warning[] = [];
  let blank = 0;
  const places = new Map(columns.map((column, place) => [column.is, place]));
  const plan: ColumnPlan = { columns, places, units, decimal: file.decimal };
  const unknown = columns.flatMap((column, place) =>
    column.is === 'unknown' ? [{ place, name: column.header || `column ${place + 1}` }] : [],
  );
  const lines = columns.flatMap((column, place) =>
    column.is === 'a line' ? [{ place, head: column.line, header: column.header }] : [],
  );

  for (const fileRow of file.rows) {
    const reader = new RowReader(fileRow, plan);
    const extra = fileRow.cells.findIndex(
      (cell, place) => place >= columns.length && cell.trim() !== '',
    );
    if (extra >= 0) {
      faults.push(
        fault(
          fileRow.row,
          `column ${extra + 1}`,
          fileRow.cells[extra] ?? '',
          `${columns.length} cells, as the header has`,
        ),
      );
      continue;
    }
    const shared = readShared(reader, fileRow, unknown);
    const found =
      lines.length > 0
        ? lines.map((line) => readWideCell(reader, shared, fileRow, line))
        : [readLongRow(reader, shared)];
    for (const each of reader.faults) faults.push(each);
    if (reader.faults.length > 0 && (lines.length === 0 || reader.sharedFaults > 0)) continue;

    for (const row of found) {
      if (row === undefined) continue;
      if (row.gap === undefined && row.void === undefined && row.later === undefined) {
        blank += 1;
        if (row.note !== undefined && lines.length === 0) {
          const text = `the note "${row.note}" has no reading to stand beside and is not kept`;
          warnings.push({ row: row.row, column: 'note', text });
        }
      }
      rows.push(row);
    }
  }
  return { rows, faults, warnings, blank };
}

function readLongRow(reader: RowReader, shared: Shared): MeasuredRow | undefined {
  const sideText = reader.raw('side').trim();
  const side = readSide(sideText);
  if (side === undefined) reader.refuse('side', sideText, 'port, starboard or centre');
  const offset = readOffset(reader);
  const gapText = reader.raw('gap').trim();
  const marked = readVoidMark(gapText);
  const reason = reader.words('void') ?? marked;
  const later = reader.words('later');
  const gap = marked === undefined ? reader.length('gap') : undefined;

  if (gap !== undefined && reason !== undefined) {
    reader.refuse('gap', gapText, `no gap where the station is void (${reason}), or no void`);
  } else if (later !== undefined && (gap !== undefined || reason !== undefined)) {
    reader.refuse('later', later, 'nothing where the station is read or void');
  }
  const measured = gap !== undefined || reason !== undefined || later !== undefined;
  if (measured && shared.station === undefined && reader.raw('station').trim() === '') {
    reader.refuse('station', '', 'the station of this reading');
  }
  if (side === undefined || offset === undefined) return undefined;
  return {
    ...shared,
    gapColumn: reader.header('gap'),
    side,
    offset,
    ...(gap === undefined ? {} : { gap: readTyped(reader, gap, 'gap_typed') }),
    ...(reason === undefined ? {} : { void: reason }),
    ...(later === undefined ? {} : { later }),
  };
}

function readOffset(reader: RowReader): Typed | undefined {
  const before = reader.faults.length;
  const offset = reader.length('offset');
  if (offset === undefined) {
    if (reader.faults.length === before) {
      reader.refuse('offset', '', "the line's offset from the keel, measured along the bottom");
    }
    return undefined;
  }
  if (offset.mm >= 0 && offset.mm <= FARTHEST_OFFSET) return offset;
  const expected = offset.mm < 0 ? '0 or more, and the side in its own column' : OFFSET_EXPECTED;
  reader.refuse('offset', offset.text, expected);
  return undefined;
}

function readWideCell(
  reader: RowReader,
  shared: Shared,
  { row, cells }: FileRow,
  { place, head, header }: { place: number; head: LineHead; header: string },
): MeasuredRow | undefined {
  const common = {
    ...shared,
    gapColumn: header,
    line: head.name,
    side: head.side,
    offset: head.offset,
    source: `row ${row} ${header}`,
  };
  const cell = cells[place] ?? '';
  if (cell.trim() === '') return common;
  if (shared.station === undefined) {
    if (reader.sharedFaults === 0) {
      reader.refuse('station', '', 'the station of this row');
      reader.sharedFaults = reader.faults.length;
    }
    return undefined;
  }
  const reason = readVoidMark(cell);
  if (reason !== undefined) return { ...common, void: reason };
  const gap = reader.lengthAt(place, 'gap');
  return gap === undefined ? undefined : { ...common, gap };
}
