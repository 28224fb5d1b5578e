import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { withUnit } from '../../src/survey/withUnit.ts';
import { readLength } from '../../src/survey/readingText.ts';
import type { StationRow } from './readingsView.ts';

/** What stands in the note of a reading whose unit somebody has looked at and kept. */
export const UNIT_KEPT = 'unit checked: as typed';

export interface UnitDoubt {
  /** "2.54 mm", as it stands. */
  readonly typed: string;
  /** "2.54 in", the same figure in the other unit. */
  readonly other: string;
  /** The other, mm. */
  readonly mm: number;
  /** What is pointed out, in words. */
  readonly words: string;
}

const MM_IN_INCH = 25.4;
/** How far from 25.4 times the middle of the neighbours may be, and how far each of them, as factors; house defaults. */
const MIDDLE_WITHIN = 1.6;
const EACH_WITHIN = 2.5;
const NEIGHBOURS = 2;

/** Whether a reading looks as if it were of the other unit: about 25.4 times its neighbours, or a 25.4th of them, up to
 *  two on either side. A fraction is never doubted, nor a contact, nor one that somebody has kept. `rows`: of one lay,
 *  in the order of their stations, either way round. */
export function unitDoubt(
  rows: readonly StationRow[],
  row: StationRow,
  workUnit: 'mm' | 'in',
): UnitDoubt | undefined {
  const [look, second] = row.looks;
  if (look === undefined || second !== undefined || look.reading.note === UNIT_KEPT)
    return undefined;
  const typed = withUnit(look.reading.gap, workUnit);
  const read = readLength(typed);
  if (!read.ok || typed.includes('/') || read.mm <= 0) return undefined;
  if (read.unit !== 'mm' && read.unit !== 'in') return undefined;
  const sizes = neighbours(rows, row).sort((a, b) => a - b);
  if (sizes.length < NEIGHBOURS) return undefined;
  const middle = sizes[Math.floor((sizes.length - 1) / 2)];
  const off = read.unit === 'in' ? MM_IN_INCH : 1 / MM_IN_INCH;
  const like = (size: number, within: number): boolean =>
    Math.abs(Math.log(read.mm / (size * off))) <= Math.log(within);
  if (!like(middle, MIDDLE_WITHIN) || !sizes.every((size) => like(size, EACH_WITHIN))) {
    return undefined;
  }
  const unit = read.unit === 'in' ? 'mm' : 'in';
  const mm = read.mm / off;
  const other = `${typed.slice(0, -read.unit.length - 1)} ${unit}`;
  const words =
    read.unit === 'in'
      ? `About 25 times its neighbours: ${other} rather than ${typed}?`
      : `About a 25th of its neighbours: ${other} rather than ${typed}?`;
  return { typed, other, mm, words };
}

/** What is written anew where somebody says which unit it was: the reading in the other, or as one whose unit was looked
 *  at. */
export function settledAs(
  { mm, other }: UnitDoubt,
  as: 'other' | 'typed',
): { readonly changes: Partial<BodyOf<'reading'>>; readonly why: string } {
  if (as === 'typed') return { changes: { note: UNIT_KEPT }, why: UNIT_KEPT };
  const unit = other.endsWith('in') ? 'in' : 'mm';
  return {
    changes: { gap: { mm, text: other }, unit, note: UNIT_KEPT },
    why: 'typed in the other unit',
  };
}

/** Gaps above 0 at the nearest stations that were read, mm. */
function neighbours(rows: readonly StationRow[], row: StationRow): number[] {
  const at = rows.findIndex(({ key }) => key === row.key);
  const read = (part: readonly StationRow[]): readonly StationRow[] =>
    part.filter(({ looks }) => looks.length > 0);
  const near = [
    ...read(rows.slice(0, at)).slice(-NEIGHBOURS),
    ...read(rows.slice(at + 1)).slice(0, NEIGHBOURS),
  ];
  return near
    .flatMap(({ looks }) => looks.map(({ reading }) => reading.gap.mm))
    .filter((mm) => mm > 0);
}
