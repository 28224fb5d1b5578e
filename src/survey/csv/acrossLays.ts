import type { AcrossReading, Placement, PlacementAcross, VoidStation } from '../survey.ts';
import { canCross } from '../panels/placeAthwart.ts';
import { fault, type Fault } from './fault.ts';
import type { Lay, LineRows } from './groupRows.ts';

/** What one line has of a placement across, read as if it were a placement of that line. */
export interface AcrossPart {
  readonly line: LineRows;
  readonly lay: Lay;
  readonly placement: Placement;
}

const SAY_FLAT =
  'or a line “# flat across the keel: yes” above the header: on a vee no straightedge lies along both sides';

/** Stations of a straightedge laid athwart may differ by no more than this, mm: a pencil mark either way. */
const ONE_STATION = 2;

/** Puts the parts of placements across together, line by line as the file has them: one of a side, name and repeat, or of
 *  both where it lay right across the keel. A lay that contradicts itself from line to line is a fault and so is one
 *  athwart at several stations, and one right across the keel of a bottom that the file does not say is flat there. */
export function acrossLays(
  parts: readonly AcrossPart[],
  flat: boolean,
): {
  readonly across: readonly PlacementAcross[];
  readonly faults: readonly Fault[];
} {
  const faults: Fault[] = [];
  const lays = new Map<string, AcrossPart[]>();
  /** Right across the keel of a bottom that is not said to be flat there: the first row of each lay, and how many. */
  const notFlat = new Map<
    string,
    { readonly name: string; readonly row: number; readonly rows: number }
  >();
  for (const part of parts) {
    const { name, repeat, direction, overKeel, firstRow } = part.lay;
    const side = overKeel === true ? 'both' : part.line.side;
    if (overKeel === true && !flat) {
      const called = `${direction} ${name} ${repeat}`;
      const refused = notFlat.get(called) ?? { name, row: firstRow, rows: 0 };
      notFlat.set(called, { ...refused, rows: refused.rows + part.lay.rows.length });
      continue;
    }
    if (side === 'centre') {
      const expected = 'port or starboard: a placement across lies on one side of the keel';
      faults.push(fault(firstRow, 'side', side, expected));
      continue;
    }
    if (!canCross(side, part.line)) {
      const expected = '0 on a centre line: off the keel it is on neither side';
      faults.push(fault(firstRow, 'offset', String(part.line.offset), expected));
      continue;
    }
    if (part.lay.facts.aftEnd !== undefined || part.lay.facts.aftMark !== undefined) {
      const expected = `nothing where the straightedge lies across (placement ${name})`;
      faults.push(fault(firstRow, 'aft_end', '', expected));
      continue;
    }
    const key = `${side} ${direction} ${name} ${repeat}`;
    const before = lays.get(key);
    if (before === undefined) lays.set(key, [part]);
    else before.push(part);
  }
  for (const { name, row, rows } of notFlat.values()) {
    const expected = `nothing in all ${rows} rows of placement ${name}, ${SAY_FLAT}`;
    faults.push({ ...fault(row, 'over_keel', 'yes', expected), rows });
  }
  const across = [...lays.values()].map((own): PlacementAcross => {
    const [first] = own;
    const { name, repeat, direction = 'athwart' } = first.lay;
    for (const { lay } of own.slice(1)) {
      if (said(lay) === said(first.lay)) continue;
      const expected = `what row ${first.lay.firstRow} says of placement ${name}, ${direction}`;
      faults.push(fault(lay.firstRow, 'placement', name, expected));
    }
    const stations = own.flatMap(({ lay }) => lay.rows.flatMap(({ station }) => station ?? []));
    const [low, high] = [Math.min, Math.max].map((pick) => pick(...stations.map(({ mm }) => mm)));
    if (direction === 'athwart' && high - low > ONE_STATION) {
      const expected = `one station in placement ${name}: athwart, a straightedge lies at one; or direction diagonal`;
      faults.push(fault(first.lay.firstRow, 'direction', direction, expected));
    }
    const side =
      first.lay.overKeel === true ? 'both' : first.line.side === 'starboard' ? 'starboard' : 'port';
    const on = <T extends object>(of: (placement: Placement) => readonly T[]) =>
      own.flatMap(({ line, placement }) =>
        of(placement).map((item) => ({ ...item, line: line.name })),
      );
    return {
      ...layingOf(first.placement),
      id: `${side}/${direction} ${name}/${repeat}`,
      side,
      direction,
      readings: on((placement) => placement.readings) satisfies readonly AcrossReading[],
      voids: on((placement) => placement.voids) satisfies readonly VoidStation[],
      later: on((placement) => placement.later),
    };
  });
  return { across, faults };
}

/** What is asked of an edge along a line, and of a log, is not asked here. */
function layingOf({ aftEnd: _end, aftMark: _mark, log: _log, ...laying }: Placement) {
  return laying;
}

function said({ facts }: Lay): string {
  return JSON.stringify(Object.entries(facts).sort(([a], [b]) => (a < b ? -1 : 1)));
}
