import type { Typed } from '../survey.ts';
import type { CountedUnit } from '../units.ts';
import type { Column, LengthColumn, WordColumn } from './columns.ts';
import { fault, type Fault } from './fault.ts';
import { readCountCell, readLengthCell, type CellRead } from './readCell.ts';
import type { FileRow } from './splitFile.ts';
import { readTextCell } from './textCell.ts';

/** Reads cells of one row by column, gathering faults. */
export interface RowReader {
  readonly faults: Fault[];
  /** How many of them concern the row as a whole. */
  sharedFaults: number;
  header(is: Column['is']): string;
  words(is: WordColumn): string | undefined;
  choice<T>(is: WordColumn, read: (text: string) => Outcome<T>): T | undefined;
  count(is: WordColumn): number | undefined;
  length(is: LengthColumn): Typed | undefined;
  cell(place: number, is: LengthColumn): CellRead<Typed>;
  raw(is: Column['is']): string;
  refuse(is: Column['is'], found: string, expected: string): void;
}

type Outcome<T> = { readonly value: T } | { readonly expected: string };

export function rowReader(
  { row, cells }: FileRow,
  columns: readonly Column[],
  places: ReadonlyMap<Column['is'], number>,
  units: ReadonlyMap<LengthColumn, CountedUnit>,
  decimal: '.' | ',' | undefined,
): RowReader {
  const faults: Fault[] = [];
  const placeOf = (is: Column['is']) => places.get(is) ?? -1;
  const raw = (is: Column['is']) => cells[placeOf(is)] ?? '';
  const header = (is: Column['is']) => columns[placeOf(is)]?.header ?? is;
  const refuse = (is: Column['is'], found: string, expected: string) => {
    faults.push(fault(row, header(is), found, expected));
  };
  const take = <T>(read: CellRead<T>): T | undefined => {
    if ('fault' in read) faults.push(read.fault);
    return 'value' in read ? read.value : undefined;
  };
  const cell = (place: number, is: LengthColumn): CellRead<Typed> => {
    const unit = units.get(is);
    const at = { row, column: columns[place]?.header ?? is };
    return unit === undefined
      ? { absent: true }
      : readLengthCell(cells[place] ?? '', at, unit, decimal);
  };
  const words = (is: WordColumn) => {
    const text = readTextCell(raw(is));
    return text === '' ? undefined : text;
  };
  return {
    faults,
    sharedFaults: 0,
    header,
    raw,
    refuse,
    words,
    cell,
    length: (is) => (places.has(is) ? take(cell(placeOf(is), is)) : undefined),
    count: (is) =>
      places.has(is) ? take(readCountCell(raw(is), { row, column: header(is) })) : undefined,
    choice: (is, read) => {
      const text = words(is);
      if (text === undefined) return undefined;
      const outcome = read(text);
      if ('value' in outcome) return outcome.value;
      refuse(is, text, outcome.expected);
      return undefined;
    },
  };
}
