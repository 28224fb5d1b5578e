import { FARTHEST_OFFSET, OFFSET_EXPECTED } from '../bounds.ts';
import { readLength } from '../readingText.ts';
import type { Side, Typed } from '../survey.ts';
import { readUnit, unitNamed, type CountedUnit, type Unit } from '../units.ts';
import { fault, type Fault } from './fault.ts';
import { readSide } from './readSide.ts';
import type { FileRow } from './splitFile.ts';
import { readTextCell } from './textCell.ts';

/** Columns that hold lengths: their unit stands in the header, or in every cell. */
export const LENGTH_COLUMNS = [
  'offset',
  'station',
  'gap',
  'aft_end',
  'block',
  'fore_block',
  'edge_length',
  'limit',
  'read_to',
  'gauge_read_to',
] as const;

/** Columns that hold words or counts. */
const WORD_COLUMNS = [
  'side',
  'line',
  'landmark',
  'placement',
  'direction',
  'over_keel',
  'repeat',
  'held',
  'blocks_at',
  'aft_mark',
  'edge_face',
  'edge',
  'gauge',
  'reads',
  'gauge_reads',
  'support_period',
  'look',
  'weight',
  'void',
  'later',
  'note',
  'station_typed',
  'gap_typed',
] as const;

export type LengthColumn = (typeof LENGTH_COLUMNS)[number];
export type WordColumn = (typeof WORD_COLUMNS)[number];

export interface LineHead {
  readonly name: string;
  readonly side: Side;
  readonly offset: Typed;
}

/** A column as its header was understood. */
export type Column =
  | { readonly header: string; readonly is: LengthColumn; readonly unit?: CountedUnit }
  | { readonly header: string; readonly is: WordColumn }
  | { readonly header: string; readonly is: 'a line'; readonly line: LineHead }
  | { readonly header: string; readonly is: 'unknown' };

export type Form = 'long' | 'wide';

export interface Columns {
  readonly form: Form | undefined;
  readonly columns: readonly Column[];
  readonly faults: readonly Fault[];
  /** A line head without a unit: the file or the person must say what its offset is in. */
  readonly needsOffsetUnit: boolean;
}

/** Reads a header row: which columns there are, in which units, and whether it is the long form (a `gap` column) or
 *  the wide one (a `station` column and one column a line, headed like `P450mm`).
 *  offsetUnit: the unit of line heads that state none. */
export function readColumns(header: FileRow, offsetUnit?: Unit): Columns {
  const faults: Fault[] = [];
  let needsOffsetUnit = false;
  const cells = trimmedRight(header.cells.map(readTextCell));
  const long = cells.some((cell) => knownColumn(cell)?.is === 'gap');

  const columns = cells.map((cell): Column => {
    const known = knownColumn(cell);
    if (known !== undefined) {
      if (known.badUnit !== undefined) {
        faults.push(
          fault(
            header.row,
            cell,
            known.badUnit,
            'a unit such as mm, in or 1/32 in behind the name',
          ),
        );
      }
      return known.column;
    }
    const line = long ? undefined : lineHead(cell, offsetUnit);
    if (line === 'needs unit') needsOffsetUnit = true;
    else if (line !== undefined) {
      if (line.offset.mm > FARTHEST_OFFSET) {
        faults.push(fault(header.row, cell, cell, OFFSET_EXPECTED));
      }
      return { header: cell, is: 'a line', line };
    }
    return { header: cell, is: 'unknown' };
  });

  const seen = new Set<string>();
  columns.forEach((column) => {
    const name = column.is === 'unknown' || column.is === 'a line' ? column.header : column.is;
    if (name !== '' && seen.has(name)) {
      faults.push(fault(header.row, column.header, column.header, 'each column once'));
    }
    seen.add(name);
  });

  const has = (is: Column['is']) => columns.some((column) => column.is === is);
  if (long) {
    for (const is of ['side', 'offset', 'station'] as const) {
      if (!has(is))
        faults.push(
          fault(
            header.row,
            is,
            '',
            `${is === 'offset' ? 'an' : 'a'} ${is} column beside the gap column`,
          ),
        );
    }
    return { form: 'long', columns, faults, needsOffsetUnit: false };
  }
  if (has('station') && (has('a line') || needsOffsetUnit)) {
    return { form: 'wide', columns, faults, needsOffsetUnit };
  }
  faults.push(
    fault(
      header.row,
      '',
      cells.join(' '),
      'a header: side, offset, station and gap; or station and a column a line, headed like P450mm or S18in',
    ),
  );
  return { form: undefined, columns, faults, needsOffsetUnit: false };
}

const lengthNames: ReadonlySet<string> = new Set(LENGTH_COLUMNS);
const wordNames: ReadonlySet<string> = new Set(WORD_COLUMNS);

function isLength(name: string): name is LengthColumn {
  return lengthNames.has(name);
}

function isWord(name: string): name is WordColumn {
  return wordNames.has(name);
}

/** The column of ours that a header names, with its unit. */
export function knownColumn(
  header: string,
): { is: LengthColumn | WordColumn; column: Column; badUnit?: string } | undefined {
  const plain = header.toLowerCase().replace(/[\s_-]+/g, '_');
  if (isWord(plain)) return { is: plain, column: { header, is: plain } };
  if (isLength(plain)) return { is: plain, column: { header, is: plain } };

  const bracketed = /^([^([]*)[([]([^)\]]*)[)\]]$/.exec(header);
  if (bracketed !== null) {
    const [, before = '', inside = ''] = bracketed;
    const name = before
      .trim()
      .toLowerCase()
      .replace(/[\s_-]+/g, '_')
      .replace(/_$/, '');
    if (!isLength(name)) return undefined;
    const unit = readUnit(inside);
    return unit === undefined
      ? { is: name, column: { header, is: name }, badUnit: inside.trim() }
      : { is: name, column: { header, is: name, unit } };
  }
  const cut = plain.lastIndexOf('_');
  const name = plain.slice(0, cut);
  const unit = unitNamed(plain.slice(cut + 1));
  if (cut < 1 || !isLength(name) || unit === undefined) return undefined;
  return { is: name, column: { header, is: name, unit: { unit } } };
}

function lineHead(
  header: string,
  offsetUnit: Unit | undefined,
): LineHead | 'needs unit' | undefined {
  const match = /^([a-z]+)[\s_]*([\d.,].*)$/i.exec(header);
  const side = match === null ? undefined : readSide(match[1] ?? '');
  if (match === null || side === undefined) return undefined;
  const text = (match[2] ?? '').replaceAll('_', ' ');
  const read = readLength(text, offsetUnit === undefined ? {} : { unit: offsetUnit });
  if (!read.ok) return read.reason === 'no unit' ? 'needs unit' : undefined;
  const name = read.unit === 'mm' ? header.replace(/\s*mm$/i, '') : header;
  return { name, side, offset: { mm: read.mm, text: read.text } };
}

function trimmedRight(cells: readonly string[]): readonly string[] {
  let end = cells.length;
  while (end > 0 && cells[end - 1] === '') end -= 1;
  return cells.slice(0, end);
}
