import { readLength } from '../readingText.ts';
import type { Typed } from '../survey.ts';
import { UNITS, type CountedUnit } from '../units.ts';
import { fault, type Fault } from './fault.ts';

export type CellRead<T> =
  { readonly value: T } | { readonly absent: true } | { readonly fault: Fault };

export interface CellPlace {
  readonly row: number;
  readonly column: string;
}

/** A length cell under a header that says the unit. A cell that states another unit is a fault: mixed units. */
export function readLengthCell(
  cell: string,
  at: CellPlace,
  unit: CountedUnit,
  decimal: '.' | ',' | undefined,
): CellRead<Typed> {
  const read = readLength(cell, decimal === undefined ? unit : { ...unit, decimal });
  if (!read.ok) {
    if (read.reason === 'absent') return { absent: true };
    return { fault: fault(at.row, at.column, read.found, read.expected) };
  }
  if (read.stated && read.unit !== unit.unit) {
    const expected = `${UNITS[unit.unit].plural}, as the column's other cells (mixed units)`;
    return { fault: fault(at.row, at.column, read.text, expected) };
  }
  return { value: { mm: read.mm, text: read.text } };
}

/** A whole number from 1: a look, a repeat, a weight. */
export function readCountCell(cell: string, at: CellPlace): CellRead<number> {
  const text = cell.trim();
  if (text === '') return { absent: true };
  return /^[1-9]\d{0,8}$/.test(text)
    ? { value: Number(text) }
    : { fault: fault(at.row, at.column, text, 'a whole number from 1') };
}

/** "x through-hull": a station that cannot be read, with its reason; undefined where the cell is no such mark. */
export function readVoidMark(cell: string): string | undefined {
  const match = /^x(?:\s+(.+))?$/is.exec(cell.trim());
  return match === null ? undefined : (match[1] ?? 'not stated');
}
