import { beyondEdge, gapRefusal } from '../gapRefusal.ts';
import { clip, fault, type Fault, type Warning } from './fault.ts';
import type { LayFacts, MeasuredRow } from './measuredRow.ts';

export interface LayToCheck {
  /** How a person would call it: "line P300, placement 1". */
  readonly called: string;
  readonly firstRow: number;
  readonly facts: LayFacts;
  readonly rows: readonly MeasuredRow[];
  readonly kind: 'hand' | 'log';
  /** Where the straightedge lay across lines: all that one of them has of it stands at one station. */
  readonly across?: boolean;
}

export interface LayChecked {
  readonly good: readonly MeasuredRow[];
  readonly faults: readonly Fault[];
  readonly warnings: readonly Warning[];
}

/** Looks at the rows of one lay together: gaps that cannot be, stations read twice, blocks without a height, stations
 *  that the edge does not reach. Faulty rows are left out of `good`. */
export function checkLay(lay: LayToCheck): LayChecked {
  const faults: Fault[] = [];
  const { held, block } = lay.facts;
  if (held === 'blocks' && block === undefined) {
    faults.push(fault(lay.firstRow, 'block', '', `the height of the blocks (${lay.called})`));
  }
  if (held === 'resting' && block !== undefined) {
    const expected = `no block height where the edge rests (${lay.called})`;
    faults.push(fault(lay.firstRow, 'block', `${block} mm`, expected));
  }
  const believed = lay.rows.filter((row) => {
    const wrong = gapFault(row, lay.facts);
    if (wrong !== undefined) faults.push(wrong);
    return wrong === undefined;
  });
  const { good, faults: repeated } = once(believed, lay);
  return {
    good,
    faults: [...faults, ...repeated],
    warnings: beyondEnds(good, lay),
  };
}

function gapFault(row: MeasuredRow, facts: LayFacts): Fault | undefined {
  const { gap } = row;
  if (gap === undefined) return undefined;
  const expected = gapRefusal(gap.mm, facts, row.division);
  return expected === undefined ? undefined : fault(row.row, row.gapColumn, gap.text, expected);
}

/** The same station twice in a lay: in a hand survey a slip, unless a look number tells them apart. */
function once(
  rows: readonly MeasuredRow[],
  lay: LayToCheck,
): { good: readonly MeasuredRow[]; faults: readonly Fault[] } {
  const read = rows.filter((row) => row.gap !== undefined);
  const [first] = read;
  const sameStation =
    first?.station !== undefined && read.every((row) => row.station?.mm === first.station?.mm);
  const sameLook = new Set(read.map((row) => row.look)).size < read.length;
  if (
    first !== undefined &&
    sameStation &&
    lay.across !== true &&
    sameLook &&
    read.length >= (lay.kind === 'log' ? 2 : 3)
  ) {
    const expected = stationsDiffer(read.length, lay.called);
    const found = first.station?.text ?? '';
    return {
      good: rows.filter((row) => row.gap === undefined || row === first),
      faults: [{ ...fault(first.row, first.stationColumn, found, expected), rows: read.length }],
    };
  }

  const seen = new Map<string, MeasuredRow>();
  const faults: Fault[] = [];
  const good = rows.filter((row) => {
    if (row.station === undefined || isBlank(row)) return true;
    const key = `${row.station.mm} ${row.look}`;
    const before = seen.get(key);
    if (before === undefined) {
      seen.set(key, row);
      return true;
    }
    if (lay.kind === 'log' && before.gap !== undefined && row.gap !== undefined) return true;
    const there = before.gap?.text ?? before.void ?? before.later ?? '';
    const expected = eachOnce(lay.called, before.row, there);
    faults.push(fault(row.row, row.stationColumn, row.station.text, expected));
    return false;
  });
  return { good, faults };
}

/** What was expected of a lay whose readings all stand at one station. */
export function stationsDiffer(readings: number, called: string): string {
  return `stations that differ: all ${readings} readings of ${called} stand at one`;
}

/** What was expected where a lay says two things of one station. */
export function eachOnce(called: string, row: number, there: string): string {
  const said = `row ${row} has ${clip(there)} there`;
  return `each station once in ${called} (${said}), or a look number for a second look`;
}

function isBlank(row: MeasuredRow): boolean {
  return row.gap === undefined && row.void === undefined && row.later === undefined;
}

function beyondEnds(rows: readonly MeasuredRow[], lay: LayToCheck): Warning[] {
  return rows.flatMap((row) => {
    if (row.gap === undefined || row.station === undefined) return [];
    const said = beyondEdge(row.station, lay.facts);
    if (said === undefined) return [];
    return [{ row: row.row, column: row.stationColumn, text: `${lay.called}: ${said}` }];
  });
}
