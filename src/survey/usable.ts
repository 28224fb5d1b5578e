import { repeatScatter } from '../fit/repeatScatter.ts';
import { tiedGroups, type PlacementReadings } from '../fit/tied.ts';
import type { Repeatability } from './assessment.ts';
import { blockUnder } from './edge/blockUnder.ts';
import type { Line, Placement, Reading, Survey } from './survey.ts';

/** Readings as the fit wants them: block taken off, gauge and edge corrected, each with its uncertainty. */
export interface UsableReading {
  readonly reading: Reading;
  readonly placement: Placement;
  readonly gap: number;
  readonly division: number;
}

/** House default where no gauge division is stated: a steel rule's 1/32 in, or 0.5 mm. */
export function houseDivision(workUnit: Survey['workUnit']): number {
  return workUnit === 'in' ? 25.4 / 32 : 0.5;
}

/** Below this many degrees of freedom repeats are not enough to replace a stated repeatability:
 *  from 10 on their scatter is known to about a quarter, inside the factor that the fit averages over. */
export const REPEATS_NEEDED = 10;

/** Stations nearer than this are one station, mm: a pencil mark. */
export const SAME_STATION = 1;

/** A placement's readings from aft forward: the block comes off, and a gauge read as the last leaf that
 *  went in, which reads half a step low on average, is corrected by that half. A gauge stated with a
 *  reading goes before the placement's. `edgeError`: the edge's own error at a station, positive proud,
 *  where it is known: a proud edge reads low by it. The order in which readings were written does not matter. */
export function usableReadings(
  placement: Placement,
  workUnit: Survey['workUnit'],
  resolution?: number,
  edgeError?: (station: number) => number,
): readonly UsableReading[] {
  return [...placement.readings].sort(fromAft).map((reading) => {
    const division =
      resolution ?? reading.division ?? placement.division ?? houseDivision(workUnit);
    const half = (reading.reads ?? placement.reads) === 'last leaf' ? division / 2 : 0;
    const block = blockUnder(placement, reading.station.mm);
    const read = block === undefined ? reading.gap.mm + half : reading.gap.mm + half - block;
    const gap = edgeError === undefined ? read : read + edgeError(reading.station.mm);
    return { reading, placement, gap, division };
  });
}

function fromAft(a: Reading, b: Reading): number {
  return a.station.mm - b.station.mm || a.gap.mm - b.gap.mm;
}

/** Standard uncertainty of one reading: resolution/√12 with repeatability (GUM F.2.2.1).
 *  Scatter found from repeats already has the rounding in it and is not counted twice.
 *  A log's average of many has its repeatability, not its resolution, divided by their root. */
export function readingUncertainty(
  { division, reading }: UsableReading,
  repeatability: Repeatability,
): number {
  const rounding = division / Math.sqrt(12);
  const many = Math.sqrt(reading.weight ?? 1);
  if (repeatability.from === 'repeats') return Math.max(repeatability.mm / many, rounding);
  const repeat = repeatability.from === 'stated' ? repeatability.mm : division / 2;
  return Math.hypot(rounding, repeat / many);
}

/** Repeatability found from repeats over all lines where there are enough, else as stated,
 *  else half a division. */
export function repeatabilityOf(
  survey: Survey,
  stated: number | undefined,
  resolution: number | undefined,
  errorOf: (placement: Placement) => ((station: number) => number) | undefined = () => undefined,
): Repeatability {
  let squares = 0;
  let dof = 0;
  let finest = Infinity;
  for (const line of survey.lines) {
    for (const placements of byPeriod(line)) {
      const usable = placements.map((p) =>
        usableReadings(p, survey.workUnit, resolution, errorOf(p)),
      );
      for (const readings of usable)
        for (const r of readings) finest = Math.min(finest, r.division);
      const plain = usable.map((readings) => asPlacement(readings, () => 1));
      for (const group of tiedGroups(plain, SAME_STATION)) {
        const members = group.map((i) => plain[i]).filter((p) => p.x.length > 0);
        if (members.length === 0) continue;
        const scatter = repeatScatter(members, SAME_STATION);
        squares += scatter.squares;
        dof += scatter.dof;
      }
    }
  }
  if (dof >= REPEATS_NEEDED) return { mm: Math.sqrt(squares / dof), from: 'repeats', dof };
  if (stated !== undefined) return { mm: stated, from: 'stated' };
  const division = Number.isFinite(finest) ? finest : houseDivision(survey.workUnit);
  return { mm: division / 2, from: 'house default' };
}

/** Placements of a file that knows nothing of the support all belong to one period. */
const FIRST_PERIOD = 0;

/** A line's placements by what stood under the hull: a move of the support parts them. Within a period
 *  they stand in an order of their own, so that the order in which they were written does not matter. */
export function byPeriod(line: Line): readonly (readonly Placement[])[] {
  const periods = new Map<number, Placement[]>();
  for (const placement of line.placements) {
    const period = placement.supportPeriod ?? FIRST_PERIOD;
    const seen = periods.get(period);
    if (seen) seen.push(placement);
    else periods.set(period, [placement]);
  }
  return [...periods.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, placements]) => placements.sort(byReadings));
}

/** By what was read, from the aft station on; layings that read alike by their ids. */
function byReadings(a: Placement, b: Placement): number {
  const theirs = [...b.readings].sort(fromAft);
  const differing = [...a.readings]
    .sort(fromAft)
    .map((reading, i) => (i < theirs.length ? fromAft(reading, theirs[i]) : 1))
    .find((difference) => difference !== 0);
  return differing ?? (a.readings.length - theirs.length || (a.id < b.id ? -1 : 1));
}

export function asPlacement(
  readings: readonly UsableReading[],
  uncertainty: (r: UsableReading) => number,
): PlacementReadings {
  return {
    x: readings.map((r) => r.reading.station.mm),
    gap: readings.map((r) => r.gap),
    u: readings.map(uncertainty),
  };
}
