import { isTimeHeader } from '../log/readTime.ts';
import type { Line, Survey, Tolerance } from '../survey.ts';
import type { CountedUnit } from '../units.ts';
import { columnUnits, type GivenUnits, type NeededUnit } from './columnUnits.ts';
import { readColumns, type Column, type Columns, type LengthColumn } from './columns.ts';
import { readConditions, type ConditionsRead } from './conditions.ts';
import { clip, type Fault, type Warning } from './fault.ts';
import type { SplitFile } from './splitFile.ts';

/** What a file says before its first row is read: its `#` lines, its columns and their units. */
export interface FileHead {
  readonly conditions: ConditionsRead;
  readonly head: Columns;
  readonly units: ReadonlyMap<LengthColumn, CountedUnit>;
  /** Units to ask the person for; each is also a fault. */
  readonly needs: readonly NeededUnit[];
  readonly faults: readonly Fault[];
  readonly warnings: readonly Warning[];
  readonly workUnit: 'mm' | 'in';
  /** Whether rows can be read under it. */
  readonly readable: boolean;
}

/** Reads the head of a file. Its rows are looked at only where no header, no `#` line and nobody says a unit. */
export function readHead(file: SplitFile, options: GivenUnits): FileHead {
  const conditions = readConditions(file.hashLines);
  const { stated } = conditions;
  const offsetUnit = stated.offsetUnit ?? options.units?.offset ?? options.unit;
  const head = readColumns(file.header, offsetUnit?.unit);
  const { units, needs, faults: unitFaults } = columnUnits(head.columns, file, stated, options);
  const faults = [...conditions.faults, ...head.faults, ...unitFaults];
  const lineNeeds: NeededUnit[] = head.needsOffsetUnit
    ? [{ column: 'offset', header: file.header.cells.join(' '), row: file.header.row }]
    : [];
  if (head.needsOffsetUnit) {
    const expected = 'a unit behind each line, as P450mm or S18in, or a "# offset unit: mm" line';
    const found = clip(file.header.cells.join(' '));
    faults.push({ row: file.header.row, column: 'offset', found, expected });
  }
  const readable = head.form !== undefined && head.faults.length === 0 && unitFaults.length === 0;
  return {
    conditions,
    head,
    units,
    needs: [...needs, ...lineNeeds],
    faults,
    warnings: unknownColumns(head.columns, file.header.row, stated.kind === 'log'),
    workUnit: stated.workUnit ?? workUnitOf(units),
    readable: readable && !head.needsOffsetUnit,
  };
}

/** A file that has a header and nothing below it. */
export function noRows(header: number): Fault {
  const expected = 'a row a reading below the header';
  return { row: header, column: '', found: 'no rows', expected };
}

/** The survey that a file's conditions and lines make. */
export function toSurvey(
  { stated, support, edges, other }: Pick<ConditionsRead, 'stated' | 'support' | 'edges' | 'other'>,
  workUnit: 'mm' | 'in',
  lines: readonly Line[],
): Survey {
  const { hull, date, limit, repeatability, transomRadius } = stated;
  const tolerance: Tolerance | undefined =
    stated.tolerance === undefined || stated.toleranceSetBy === undefined
      ? stated.tolerance
      : { ...stated.tolerance, setBy: stated.toleranceSetBy };
  return {
    ...(hull === undefined ? {} : { hull }),
    ...(date === undefined ? {} : { date }),
    conditions: other,
    support,
    ...(tolerance === undefined ? {} : { tolerance }),
    ...(limit === undefined ? {} : { limit }),
    ...(repeatability === undefined ? {} : { repeatability }),
    ...(transomRadius === undefined ? {} : { transomRadius }),
    workUnit,
    kind: stated.kind ?? 'hand',
    ...(edges.length === 0 ? {} : { edges }),
    lines,
  };
}

function workUnitOf(units: ReadonlyMap<LengthColumn, CountedUnit>): 'mm' | 'in' {
  const inches = (['station', 'gap'] as const).some((is) => {
    const unit = units.get(is)?.unit;
    return unit === 'in' || unit === 'ft';
  });
  return inches ? 'in' : 'mm';
}

/** Of a log the column of times is known: it has to run forward. */
function unknownColumns(columns: readonly Column[], row: number, ofLog: boolean): Warning[] {
  const unknown = columns.flatMap(({ is, header }, place) =>
    is === 'unknown' && !(ofLog && isTimeHeader(header)) ? [header || `column ${place + 1}`] : [],
  );
  if (unknown.length === 0) return [];
  const named = unknown.slice(0, 5).map((name) => `"${clip(name)}"`);
  const more = unknown.length > named.length ? ` and ${unknown.length - named.length} more` : '';
  const text = `not known, kept as written beside the readings: ${named.join(', ')}${more}`;
  return [{ row, column: clip(unknown[0] ?? ''), text }];
}
