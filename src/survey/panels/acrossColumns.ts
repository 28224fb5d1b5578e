import { acrossLaying } from '../acrossLaying.ts';
import type { EdgeUse } from '../edge/edgeUse.ts';
import type { Line, Placement, PlacementAcross, Survey } from '../survey.ts';
import { usableReadings, type UsableReading } from '../usable.ts';
import { placeAthwart } from './placeAthwart.ts';

/** A placement across as the fit wants it: block taken off, gauge and edge corrected. One entry a reading. */
export interface AcrossColumns {
  readonly placement: PlacementAcross;
  /** Ids of lines. */
  readonly line: readonly string[];
  /** Stations. */
  readonly x: readonly number[];
  readonly gap: readonly number[];
  /** Places along the straightedge, mm, from where it would meet the keel; to port of it below 0 where it lies right
   *  across. */
  readonly along: readonly number[];
  readonly readings: readonly UsableReading[];
}

/** The same laying with its readings by their place along the straightedge, as if it lay on a line of its own: what is known
 *  of blocks and edges is asked along the edge. On the diagonal a straightedge is longer than the panel is wide. */
export function alongEdge(placement: PlacementAcross, lines: readonly Line[]): Placement {
  const { readings } = placement;
  const placed = readings.flatMap((reading) => {
    const line = lines.find(({ id }) => id === reading.line);
    return line === undefined ? [] : [{ reading, y: placeAthwart(placement.side, line) }];
  });
  const inner = placed.reduce((a, b) => (b.y < a.y ? b : a), placed[0]);
  return {
    ...acrossLaying(placement),
    readings: placed.map(({ reading, y }) => {
      const run = Math.hypot(y - inner.y, reading.station.mm - inner.reading.station.mm);
      const mm = inner.y + run;
      return { ...reading, station: { mm, text: `${mm}` } };
    }),
    voids: [],
    later: [],
  };
}

/** Readings whose line is not among `lines` are left out. */
export function acrossColumns(
  placement: PlacementAcross,
  lines: readonly Line[],
  workUnit: Survey['workUnit'],
  resolution: number | undefined,
  use: (laid: Placement) => EdgeUse,
): AcrossColumns & { readonly use: EdgeUse } {
  const laid = alongEdge(placement, lines);
  const own = use(laid);
  const readings = usableReadings(laid, workUnit, resolution, own.errorAt);
  const crossed = readings.map(({ reading }) => {
    const found = placement.readings.find(
      ({ source, look }) => source === reading.source && look === reading.look,
    );
    if (found === undefined) throw new RangeError(`reading ${reading.source}: expected once`);
    return found;
  });
  return {
    placement,
    line: crossed.map(({ line }) => line),
    x: crossed.map(({ station }) => station.mm),
    gap: readings.map(({ gap }) => gap),
    along: readings.map(({ reading }) => reading.station.mm),
    readings,
    use: own,
  };
}
