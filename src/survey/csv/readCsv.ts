import { flatAcrossKeel } from '../flatAcrossKeel.ts';
import { timeFaults } from '../log/timeFaults.ts';
import type { Line, PlacementAcross, Survey } from '../survey.ts';
import type { CountedUnit } from '../units.ts';
import { acrossLays, type AcrossPart } from './acrossLays.ts';
import { averageLog } from './averageLog.ts';
import { checkLay } from './checkLay.ts';
import type { GivenUnits, NeededUnit } from './columnUnits.ts';
import type { ConditionsRead } from './conditions.ts';
import type { Fault, Warning } from './fault.ts';
import { noRows, readHead, toSurvey } from './fileHead.ts';
import { groupRows } from './groupRows.ts';
import { layFacts, type LayDefaults } from './layFacts.ts';
import type { LayFacts } from './measuredRow.ts';
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
  const before = [...found.faults, ...(file.rows.length === 0 ? [noRows(file.header.row)] : [])];
  const rows: RowsRead = readable
    ? readRows(head.columns, units, file)
    : { rows: [], faults: [], warnings: [], blank: 0 };

  const built = build(rows, conditions, options, workUnit, units.get('gap'));
  const survey: Survey = {
    ...toSurvey(conditions, workUnit, built.lines),
    ...(built.across.length > 0 && { across: built.across }),
  };
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
  readonly across: readonly PlacementAcross[];
  readonly faults: readonly Fault[];
  readonly warnings: readonly Warning[];
  readonly assumed: readonly string[];
}

function build(
  { rows }: RowsRead,
  { stated, other }: Pick<ConditionsRead, 'stated' | 'other'>,
  { defaults = {} }: ReadCsvOptions,
  workUnit: 'mm' | 'in',
  gapUnit: CountedUnit | undefined,
): Built {
  const kind = stated.kind ?? 'hand';
  const flat = flatAcrossKeel({ conditions: other });
  const grouped = groupRows(rows, workUnit);
  const times = kind === 'log' ? timeFaults(rows, workUnit) : [];
  const faults: (readonly Fault[])[] = [grouped.faults, times];
  const warnings: (readonly Warning[])[] = [];
  const assumed = new Set<string>();

  const parts: AcrossPart[] = [];
  const lines = grouped.lines.map((rowsOfLine): Line => {
    const { lays, ...line } = rowsOfLine;
    const placements = lays.flatMap((lay) => {
      const { aftEnd, aftMark, ...others } = layFacts(lay, stated, defaults, assumed);
      const facts =
        lay.direction === undefined
          ? {
              ...others,
              ...(aftEnd !== undefined && { aftEnd }),
              ...(aftMark !== undefined && { aftMark }),
            }
          : others;
      const again = lay.repeat > 1 ? `, repeat ${lay.repeat}` : '';
      const called = `line ${line.name}, placement ${lay.name}${again}`;
      const reach = lay.direction === undefined ? facts : withoutReach(facts);
      const checked = checkLay({
        called,
        firstRow: lay.firstRow,
        facts: reach,
        rows: lay.rows,
        kind,
        across: lay.direction !== undefined,
      });
      faults.push(checked.faults);
      warnings.push(checked.warnings);
      const kept = kind === 'log' ? averageLog(checked.good, gapUnit?.unit ?? 'mm') : checked.good;
      const id = `${line.name}/${lay.name}/${lay.repeat}`;
      const placement = toPlacement(id, lay.name, lay.repeat, facts, kept);
      if (lay.direction === undefined) return [placement];
      parts.push({ line: rowsOfLine, lay, placement });
      return [];
    });
    return { id: line.name, ...line, placements };
  });
  const { across, faults: contradictions } = acrossLays(parts, flat);
  faults.push(contradictions);
  return { lines, across, faults: faults.flat(), warnings: warnings.flat(), assumed: [...assumed] };
}

/** Where an edge across ends is not said in stations, so none can lie beyond it. */
function withoutReach<F extends LayFacts>({ edgeLength: _length, ...facts }: F) {
  return facts;
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
