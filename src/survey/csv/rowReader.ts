import type { Typed } from '../survey.ts';
import type { CountedUnit } from '../units.ts';
import type { Column, LengthColumn, WordColumn } from './columns.ts';
import { fault, type Fault } from './fault.ts';
import { readCountCell, readLengthCell, type CellRead } from './readCell.ts';
import type { FileRow } from './splitFile.ts';
import { readTextCell } from './textCell.ts';

/** How the columns of a file are understood: the same for all its rows. */
export interface ColumnPlan {
  readonly columns: readonly Column[];
  readonly places: ReadonlyMap<Column['is'], number>;
  readonly units: ReadonlyMap<LengthColumn, CountedUnit>;
  readonly decimal: '.' | ',' | undefined;
}

type Outcome<T> = { readonly value: T } | { readonly expected: string };

/** Reads cells of one row by column, gathering faults. A column that the file has not is absent. */
export class RowReader {
  readonly faults: Fault[] = [];
  /** How many of them concern the row as a whole. */
  sharedFaults = 0;

  constructor(
    private readonly from: FileRow,
    private readonly plan: ColumnPlan,
  ) {}

  header(is: Column['is']): string {
    const place = this.plan.places.get(is);
    return place === undefined ? is : (this.plan.columns[place]?.header ?? is);
  }

  raw(is: Column['is']): string {
    const place = this.plan.places.get(is);
    return place === undefined ? '' : (this.from.cells[place] ?? '');
  }

  refuse(is: Column['is'], found: string, expected: string): void {
    this.faults.push(fault(this.from.row, this.header(is), found, expected));
  }

  words(is: WordColumn): string | undefined {
    const text = readTextCell(this.raw(is));
    return text === '' ? undefined : text;
  }

  choice<T>(is: WordColumn, read: (text: string) => Outcome<T>): T | undefined {
    const text = this.words(is);
    if (text === undefined) return undefined;
    const outcome = read(text);
    if ('value' in outcome) return outcome.value;
    this.refuse(is, text, outcome.expected);
    return undefined;
  }

  count(is: WordColumn): number | undefined {
    if (!this.plan.places.has(is)) return undefined;
    return this.take(readCountCell(this.raw(is), { row: this.from.row, column: this.header(is) }));
  }

  length(is: LengthColumn): Typed | undefined {
    const place = this.plan.places.get(is);
    return place === undefined ? undefined : this.lengthAt(place, is);
  }

  /** The length in a certain cell, read in the unit of a column. */
  lengthAt(place: number, is: LengthColumn): Typed | undefined {
    const unit = this.plan.units.get(is);
    if (unit === undefined) return undefined;
    const at = { row: this.from.row, column: this.plan.columns[place]?.header ?? is };
    return this.take(readLengthCell(this.from.cells[place] ?? '', at, unit, this.plan.decimal));
  }

  private take<T>(read: CellRead<T>): T | undefined {
    if ('fault' in read) this.faults.push(read.fault);
    return 'value' in read ? read.value : undefined;
  }
}
