import { proposedVoids } from '../../src/survey/features.ts';
import type { HullFeature } from '../../src/survey/fold/hullOf.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { acrossSideName } from '../../src/survey/acrossSide.ts';
import { capital } from '../../src/survey/sentence.ts';
import type {
  AcrossSide,
  Direction,
  Placement,
  PlacementAcross,
  Typed,
} from '../../src/survey/survey.ts';
import { acrossLaying } from '../../src/survey/acrossLaying.ts';
import { linesOfSide, placeOf } from './acrossLines.ts';
import { inWorkUnit } from './readingText.ts';
import { lineProgress, stationRows, type StationRow } from './readingsView.ts';
import { OF_ONE_LAY, type LayBody, type StatedLay } from './layView.ts';

export type AcrossBody = BodyOf<'placement across'>;

/** Where the edge lies across: on which side, how, and which lines it crosses at which stations. */
export interface AcrossWhere {
  readonly side: AcrossSide;
  readonly direction: Direction;
  readonly crosses: readonly { readonly line: string; readonly station: Typed }[];
}

/** How an edge that lay along a line goes over to one that lies across: what is said of stations does not. */
const GOES_OVER = ['held', 'block', 'edge', 'edgeLength', 'face', 'gauge', 'division', 'reads'];
const GOES_OVER_ACROSS = [...GOES_OVER, 'blockFore', 'blocksAt'];

/** The laying across that follows another. `before`: the last of the survey, along a line or across; `beside`: those
 *  that it has across. */
export function acrossAfter(
  where: AcrossWhere,
  before: LayBody | AcrossBody | undefined,
  beside: readonly Pick<PlacementAcross, 'side' | 'direction' | 'name' | 'repeat'>[],
  support: string | undefined,
): AcrossBody {
  const goesOver = before !== undefined && 'side' in before ? GOES_OVER_ACROSS : GOES_OVER;
  const kept = Object.entries(before === undefined ? {} : before).filter(([field]) =>
    goesOver.includes(field),
  );
  const { side, direction, crosses } = where;
  const names = beside
    .filter((other) => other.side === side && other.direction === direction)
    .map(({ name }) => Number(name))
    .filter(Number.isInteger);
  return {
    held: 'resting',
    ...Object.fromEntries(kept),
    side,
    direction,
    name: String(Math.max(0, ...names) + 1),
    repeat: 1,
    crosses: [...crosses],
    ...(support !== undefined && { support }),
  };
}

/** The same laying once more: picked up and laid again on the same place. */
export function acrossAgain(
  from: AcrossBody,
  beside: readonly Pick<PlacementAcross, 'side' | 'direction' | 'name' | 'repeat'>[],
  support: string | undefined,
): AcrossBody {
  const kept = Object.fromEntries(
    Object.entries(from).filter(([field]) => !OF_ONE_LAY.includes(field)),
  ) as AcrossBody;
  const own = beside.filter(
    ({ side, direction, name }) =>
      side === from.side && direction === from.direction && name === from.name,
  );
  const repeat = Math.max(from.repeat, ...own.map((other) => other.repeat)) + 1;
  return { ...kept, repeat, ...(support !== undefined && { support }) };
}

export interface AcrossRowsFrom {
  readonly body: AcrossBody | undefined;
  readonly placement: PlacementAcross | undefined;
  readonly lines: readonly HullLine[];
  readonly features: readonly HullFeature[];
  readonly workUnit: 'mm' | 'in';
}

/** A row for each line that it was laid to cross or that something was said of, from the keel outwards, across it from
 *  port to starboard. */
export function acrossRows(from: AcrossRowsFrom): readonly StationRow[] {
  const { body, placement, workUnit } = from;
  const side = placement?.side ?? body?.side;
  if (side === undefined) return [];
  const outward = linesOfSide(from.lines, side);
  const taken = new Set<number>();
  return outward.flatMap((line) => {
    const planned = (body?.crosses ?? []).filter((each) => line.ids.includes(each.line));
    const own = placement && onLine(placement, line.id);
    const stations = planned.map(({ station }) => station);
    const rows = stationRows({
      stations: own === undefined || !hasActs(own) ? stations : withoutMoved(stations, own),
      placement: own,
      proposed: proposedVoids(from.features, { side: line.side, offset: line.offset.mm }, stations),
      forward: true,
      workUnit,
    });
    return rows.map((row): StationRow => {
      // By its place, so that a line which comes in meanwhile moves no cursor.
      let key = Math.round(placeOf(side, line) * 1000);
      while (taken.has(key)) key += 1;
      taken.add(key);
      const told = rows.length > 1 || body?.direction === 'diagonal';
      return {
        ...row,
        key,
        line: line.id,
        label: line.name,
        ...(told && { under: `at ${inWorkUnit(row.station, workUnit)}` }),
      };
    });
  });
}

/** Once something was said of a line, it is the station of that which counts. */
function withoutMoved(stations: readonly Typed[], own: Placement): readonly Typed[] {
  const said = [...own.readings, ...own.voids, ...own.later].map(({ station }) => station.mm);
  return stations.filter(({ mm }) => said.some((at) => Math.abs(at - mm) < 1e-3));
}

function hasActs({ readings, voids, later }: Placement): boolean {
  return readings.length + voids.length + later.length > 0;
}

/** What it has on one line, as if it lay along it. */
function onLine(placement: PlacementAcross, id: string): Placement {
  const own = <T extends { readonly line: string }>(acts: readonly T[]) =>
    acts.filter(({ line }) => line === id);
  return {
    ...acrossLaying(placement),
    readings: own(placement.readings),
    voids: own(placement.voids),
    later: own(placement.later),
  };
}

/** The stations that it lies at, from the innermost line to the outermost. */
export function stationsAcross(rows: readonly StationRow[]): readonly Typed[] {
  return rows.map(({ station }) => station);
}

/** "athwart at 12 in", "diagonal, 0 in to 60 in", with which laying of it this is. */
export function acrossName(
  { direction, repeat = 1 }: { readonly direction: Direction; readonly repeat?: number },
  stations: readonly Typed[],
  workUnit: 'mm' | 'in',
): string {
  const again = repeat > 1 ? `, laid again (${repeat})` : '';
  if (stations.length === 0) return `${direction}${again}`;
  const [inner, outer] = [stations[0], stations[stations.length - 1]].map((station) =>
    inWorkUnit(station, workUnit),
  );
  return direction === 'athwart'
    ? `athwart at ${inner}${again}`
    : `diagonal, ${inner} to ${outer}${again}`;
}

/** One placement across as it is offered to be chosen. */
export interface AcrossChoice {
  readonly id: string;
  /** "Port", "Across the keel", as the side comes first wherever it is named. */
  readonly side: string;
  readonly name: string;
  /** "3 of 4", with what is put off. */
  readonly progress: string;
}

/** Those of a survey, as stated, in the order in which they were laid. */
export function acrossChoices(
  stated: readonly StatedLay<'placement across'>[],
  across: readonly PlacementAcross[],
  from: Omit<AcrossRowsFrom, 'body' | 'placement'>,
): readonly AcrossChoice[] {
  return stated.flatMap(({ id, body }) => {
    const placement = across.find((each) => each.id === id);
    if (placement === undefined) return [];
    const rows = acrossRows({ ...from, body, placement });
    return [
      {
        id,
        side: capital(acrossSideName(placement.side)),
        name: acrossName(placement, stationsAcross(rows), from.workUnit),
        progress: lineProgress(rows).words,
      },
    ];
  });
}
