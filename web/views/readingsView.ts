import { withUnit } from '../../src/survey/withUnit.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import type { ProposedVoid } from '../../src/survey/features.ts';
import type { Placement, Reading, Side, Typed } from '../../src/survey/survey.ts';
import { divisionText } from './gaugeView.ts';
import { inColumn } from './readingText.ts';

export interface Look {
  /** "5/32", with its unit only where that is not the column's. */
  readonly text: string;
  readonly reading: Reading;
  /** "1/64 in" where another gauge was taken than the lay's. */
  readonly gauge?: string;
}

/** One station of a lay in the readings table. Absent, void, put off and 0 never mix. */
export interface StationRow {
  /** Micrometres: the same station typed in two units is one. */
  readonly key: number;
  readonly station: Typed;
  /** Id of the line, where the edge lies across lines. */
  readonly line?: string;
  /** "12", with its unit only where that is not the column's; across lines the name of the line. */
  readonly label: string;
  /** "at 12 in", where the label does not say the station and the lay lies at several. */
  readonly under?: string;
  readonly state: 'empty' | 'read' | 'void' | 'later';
  /** In turn; none unless `read`. */
  readonly looks: readonly Look[];
  /** Why it is void or put off. */
  readonly reason?: string;
  /** Entries that say so. */
  readonly sources: readonly string[];
  /** What of the hull is in the way here, for a person to confirm. */
  readonly proposed?: string;
}

export interface RowsFrom {
  readonly stations: readonly Typed[];
  readonly placement: Placement | undefined;
  readonly proposed: readonly ProposedVoid[];
  /** Transom forward, or from the bow end aft. */
  readonly forward: boolean;
  readonly workUnit: 'mm' | 'in';
}

/** The rows of a lay, in walking order: the stations that are planned and those that something was done at. */
export function stationRows({
  stations,
  placement,
  proposed,
  forward,
  workUnit,
}: RowsFrom): readonly StationRow[] {
  const places = new Map<number, Typed>();
  const { readings, voids, later } = placement ?? { readings: [], voids: [], later: [] };
  for (const station of [
    ...stations,
    ...[...readings, ...voids, ...later].map((act) => act.station),
  ]) {
    const key = stationKey(station.mm);
    if (!places.has(key)) places.set(key, station);
  }
  const rows = [...places].map(([key, station]): StationRow => {
    const here = (act: { readonly station: Typed }) => stationKey(act.station.mm) === key;
    const looks = readings.filter(here);
    const empty = voids.filter(here);
    const put = later.filter(here);
    const state =
      looks.length > 0 ? 'read' : empty.length > 0 ? 'void' : put.length > 0 ? 'later' : 'empty';
    const said = state === 'void' ? empty : state === 'later' ? put : [];
    const inWay = state === 'empty' ? proposed.find(here)?.reason : undefined;
    return {
      key,
      station,
      label: inColumn(station, workUnit),
      state,
      looks: looks.map((reading) => lookOf(reading, placement, workUnit)),
      ...(said[0] !== undefined && { reason: said.map(({ reason }) => reason).join('; ') }),
      sources: (state === 'read' ? looks : said).map(({ source }) => source),
      ...(inWay !== undefined && { proposed: inWay }),
    };
  });
  rows.sort((a, b) => (forward ? a.key - b.key : b.key - a.key));
  return rows;
}

function lookOf(reading: Reading, placement: Placement | undefined, workUnit: 'mm' | 'in'): Look {
  const { division } = reading;
  const other = division !== undefined && division !== placement?.division;
  return {
    text: inColumn(reading.gap, workUnit),
    reading,
    ...(other && { gauge: divisionText(division) }),
  };
}

export function stationKey(mm: number): number {
  return Math.round(mm * 1000);
}

/** Lines in the order in which they are walked: on the keel, then one side from the keel outwards, then the other. */
export function walkingOrder(
  lines: readonly HullLine[],
  first: 'port' | 'starboard',
): readonly HullLine[] {
  const order: readonly Side[] =
    first === 'port' ? ['centre', 'port', 'starboard'] : ['centre', 'starboard', 'port'];
  return [...lines].sort(
    (a, b) => order.indexOf(a.side) - order.indexOf(b.side) || a.offset.mm - b.offset.mm,
  );
}

/** What a row is called: "station 12"; across lines "P18in", with its station where the lay lies at several. */
export function rowName({ line, label, under }: StationRow): string {
  if (line === undefined) return `station ${label}`;
  return under === undefined ? label : `${label} ${under}`;
}

/** Where the cursor goes from a row; undefined past either end. */
export function rowBeside(
  rows: readonly StationRow[],
  key: number,
  step: 1 | -1,
): StationRow | undefined {
  const at = rows.findIndex((row) => row.key === key);
  return at === -1 ? rows[0] : rows[at + step];
}

/** Where work goes on: the first row that nothing was said of, else the first that was put off, else the first. */
export function rowToStart(rows: readonly StationRow[]): StationRow | undefined {
  return (
    rows.find(({ state }) => state === 'empty') ??
    rows.find(({ state }) => state === 'later') ??
    rows[0]
  );
}

/** What is read back at a line's end. */
export interface ReadBack {
  readonly read: number;
  readonly void: number;
  readonly later: number;
  /** Stations that nothing was said of. */
  readonly open: readonly string[];
  /** The largest gap, its unit in the text, and at which station. */
  readonly largest?: { readonly gap: string; readonly at: string };
  readonly hints: readonly string[];
}

export function readBack(
  rows: readonly StationRow[],
  held: 'resting' | 'blocks' | undefined,
  workUnit: 'mm' | 'in',
): ReadBack {
  const readings = rows.flatMap(({ looks }) => looks.map(({ reading }) => reading));
  const count = (state: StationRow['state']) => rows.filter((row) => row.state === state).length;
  const largest = readings.reduce<Reading | undefined>(
    (most, each) => (most === undefined || each.gap.mm > most.gap.mm ? each : most),
    undefined,
  );
  const noZero =
    held === 'resting' && readings.length >= 4 && !readings.some(({ gap }) => gap.mm <= 0);
  return {
    read: count('read'),
    void: count('void'),
    later: count('later'),
    open: rows.filter(({ state }) => state === 'empty').map(({ label }) => label),
    ...(largest !== undefined && {
      largest: {
        gap: withUnit(largest.gap, workUnit),
        at: withUnit(largest.station, workUnit),
      },
    }),
    hints: noZero ? ['No zero on a resting lay: touching between stations, or slipped?'] : [],
  };
}

/** A line's readings in a few characters: "14 of 14", with what is put off. */
export function lineProgress(rows: readonly StationRow[]): {
  readonly words: string;
  readonly done: boolean;
} {
  const counted = rows.filter(({ state }) => state !== 'void');
  const read = counted.filter(({ state }) => state === 'read').length;
  const later = counted.filter(({ state }) => state === 'later').length;
  return {
    words: `${read} of ${counted.length}${later > 0 ? `, ${later} put off` : ''}`,
    done: read > 0 && read + later === counted.length,
  };
}

/** What the button says that puts stations on a line: "Add 13 1/2 and 16 1/2 in to this line". */
export function addWords(stations: readonly Typed[], workUnit: 'mm' | 'in'): string {
  if (stations.length > 4) return `Add these ${stations.length} stations to this line`;
  const places = stations.map((station) => inColumn(station, workUnit));
  const [last] = places.splice(-1);
  const before = places.length === 0 ? '' : `${places.join(', ')} and `;
  return `Add ${before}${last} ${workUnit} to this line`;
}
