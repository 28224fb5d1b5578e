import { timeFaults } from '../log/timeFaults.ts';
import type { Line, Survey } from '../survey.ts';
import type { CountedUnit } from '../units.ts';
import { averageLog } from './averageLog.ts';
import { checkLay } from './checkLay.ts';
import type { GivenUnits, NeededUnit } from './columnUnits.ts';
import type { Conditions } from './conditions.ts';
import type { Fault, Warning } from './fault.ts';
import { noRows, readHead, toSurvey } from './fileHead.ts';
import { groupRows } from './groupRows.ts';
import { layFacts, type LayDefaults } from './layFacts.ts';
import { readRows, type RowsRead } from './readRows.ts';
import { recognise, type Recognised } from './recognised.ts';
import { splitFile } from './splitFile.ts';
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
  const { conditions, head, units, needs, workUnit, readable, ...found } = readHead(file, options);
  const { stated } = conditions;
  const before = [...found.faults, ...(file.rows.length === 0 ? [noRows(file.header.row)] : [])];
  const rows: RowsRead = readable
    ? readRows(head.columns, units, file)
    : { rows: [], faults: [], warnings: [], blank: 0 };

  const built = build(rows, stated, options, workUnit, units.get('gap'));
  const survey = toSurvey(conditions, workUnit, built.lines);
  const faults = inOrder([...before, ...rows.faults, ...built.faults]);
  const warnings = inOrder([...found.warnings, ...rows.warnings, ...built.warnings]);
  const recognised = recognise(file, head.form, head.columns, units, conditions.recognised, {
    survey,
    blank: rows.blank,
    assumed: built.assumed,
  });
  return faults.length === 0
    ? { ok: true, survey, recognised, warnings }
    : { ok: false, faults, needs, partial: survey, recognised, warnings };
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
  const times = kind === 'log' ? timeFaults(rows, workUnit) : [];
  const faults: (readonly Fault[])[] = [grouped.faults, times];
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
