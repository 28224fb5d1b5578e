import type { Line, Survey, Tolerance } from '../survey.ts';
import type { CountedUnit } from '../units.ts';
import { averageLog } from './averageLog.ts';
import { checkLay } from './checkLay.ts';
import { columnUnits, type GivenUnits, type NeededUnit } from './columnUnits.ts';
import { readColumns, type Column, type LengthColumn } from './columns.ts';
import { readConditions, type Conditions, type ConditionsRead } from './conditions.ts';
import { clip, type Fault, type Warning } from './fault.ts';
import { groupRows } from './groupRows.ts';
import { layFacts, type LayDefaults } from './layFacts.ts';
import { readRows, type RowsRead } from './readRows.ts';
import { recognise, type Recognised } from './recognised.ts';
import { splitFile, type SplitFile } from './splitFile.ts';
import { toPlacement } from './toPlacement.ts';

export interface ReadCsvOptions extends GivenUnits {
  readonly defaults?: LayDefaults;
}

export type CsvRead =
  | {
      readonly ok: true;
      readonly survey: Survey;
      readonly recognised: Recognised;
      readonly warnings: readonly Warning[];
    }
  | {
      readonly ok: false;
      readonly faults: readonly Fault[];
      /** Units to ask the person for; each is also a fault. */
      readonly needs: readonly NeededUnit[];
      /** What could be read, to be shown, never to be kept as it is. */
      readonly partial: Survey;
      readonly recognised: Recognised;
      readonly warnings: readonly Warning[];
    };

/** Reads the text of a CSV file, long or wide, into a survey; lengths become mm, texts stay as typed. Nothing is
 *  guessed: a file with any fault gives its faults by row and column, and what could be read besides.
 *  Line and placement ids are made of their names ("P450", "P450/1/1"), sources of their rows ("row 12"). */
export function readCsv(text: string, options: ReadCsvOptions = {}): CsvRead {
  const split = splitFile(text);
  if (!split.ok) return unreadable([split.fault]);
  const { file } = split;
  const conditions = readConditions(file.hashLines);
  const { stated } = conditions;
  const offsetUnit = stated.offsetUnit ?? options.units?.offset ?? options.unit;
  const head = readColumns(file.header, offsetUnit?.unit);
  const { units, needs, faults: unitFaults } = columnUnits(head.columns, file, stated, options);
  const before = [...conditions.faults, ...head.faults, ...unitFaults];
  const lineNeeds: NeededUnit[] = head.needsOffsetUnit
    ? [{ column: 'offset', header: file.header.cells.join(' '), row: file.header.row }]
    : [];
  if (head.needsOffsetUnit) {
    const expected = 'a unit behind each line, as P450mm or S18in, or a "# offset unit: mm" line';
    const found = clip(file.header.cells.join(' '));
    before.push({ row: file.header.row, column: 'offset', found, expected });
  }

  const workUnit = stated.workUnit ?? workUnitOf(units);
  const readable = head.form !== undefined && head.faults.length === 0 && unitFaults.length === 0;
  const rows: RowsRead =
    readable && !head.needsOffsetUnit
      ? readRows(head.columns, units, file)
      : { rows: [], faults: [], warnings: [], blank: 0 };
  if (file.rows.length === 0) {
    const expected = 'a row a reading below the header';
    before.push({ row: file.header.row, column: '', found: 'no rows', expected });
  }

  const built = build(rows, stated, options, workUnit, units.get('gap'));
  const survey = toSurvey(conditions, workUnit, built.lines);
  const faults = inOrder([...before, ...rows.faults, ...built.faults]);
  const warnings = inOrder([
    ...unknownColumns(head.columns, file),
    ...rows.warnings,
    ...built.warnings,
  ]);
  const recognised = recognise(file, head.form, head.columns, units, conditions.recognised, {
    survey,
    blank: rows.blank,
    assumed: built.assumed,
  });
  return faults.length === 0
    ? { ok: true, survey, recognised, warnings }
    : { ok: false, faults, needs: [...needs, ...lineNeeds], partial: survey, recognised, warnings };
}

interface Built {
  readonly lines: readonly Line[];
  readonly faults: readonly Fault[];
  readonly warnings: readonly Warning[];
  readonly assumed: readonly string[];
}

function build(
  { rows }: RowsRead,
  stated: Readonly<Conditions>,
  { defaults = {} }: ReadCsvOptions,
  workUnit: 'mm' | 'in',
  gapUnit: CountedUnit | undefined,
): Built {
  const kind = stated.kind ?? 'hand';
  const grouped = groupRows(rows, workUnit);
  const faults: (readonly Fault[])[] = [grouped.faults];
  const warnings: (readonly Warning[])[] = [];
  const assumed = new Set<string>();

  const lines = grouped.lines.map(({ lays, ...line }): Line => {
    const placements = lays.map((lay) => {
      const facts = layFacts(lay, stated, defaults, assumed);
      const again = lay.repeat > 1 ? `, repeat ${lay.repeat}` : '';
      const called = `line ${line.name}, placement ${lay.name}${again}`;
      const checked = checkLay({ called, firstRow: lay.firstRow, facts, rows: lay.rows, kind });
      faults.push(checked.faults);
      warnings.push(checked.warnings);
      const kept = kind === 'log' ? averageLog(checked.good, gapUnit?.unit ?? 'mm') : checked.good;
      const id = `${line.name}/${lay.name}/${lay.repeat}`;
      return toPlacement(id, lay.name, lay.repeat, facts, kept);
    });
    return { id: line.name, ...line, placements };
  });
  return { lines, faults: faults.flat(), warnings: warnings.flat(), assumed: [...assumed] };
}

function toSurvey(
  { stated, support, other }: Pick<ConditionsRead, 'stated' | 'support' | 'other'>,
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

function unknownColumns(columns: readonly Column[], file: SplitFile): Warning[] {
  const unknown = columns.flatMap(({ is, header }, place) =>
    is === 'unknown' ? [header || `column ${place + 1}`] : [],
  );
  if (unknown.length === 0) return [];
  const named = unknown.slice(0, 5).map((name) => `"${clip(name)}"`);
  const more = unknown.length > named.length ? ` and ${unknown.length - named.length} more` : '';
  const text = `not known, kept as written beside the readings: ${named.join(', ')}${more}`;
  return [{ row: file.header.row, column: clip(unknown[0] ?? ''), text }];
}

function inOrder<T extends { readonly row: number }>(items: readonly T[]): readonly T[] {
  return [...items].sort((a, b) => a.row - b.row);
}

function unreadable(faults: readonly Fault[]): CsvRead {
  const counts = { rows: 0, readings: 0, blank: 0, voids: 0, later: 0, lines: 0, placements: 0 };
  return {
    ok: false,
    faults,
    needs: [],
    partial: { conditions: {}, support: [], workUnit: 'mm', kind: 'hand', lines: [] },
    recognised: { units: {}, columns: [], conditions: [], assumed: [], counts },
    warnings: [],
  };
}
