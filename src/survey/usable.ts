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
  return readingSpread(division, reading.weight, repeatability);
}

/** The same from what it depends on. `weight`: how many raw readings were averaged; absent: one. */
export function readingSpread(
  division: number,
  weight: number | undefined,
  repeatability: Repeatability,
): number {
  const rounding = division / Math.sqrt(12);
  const many = Math.sqrt(weight ?? 1);
  if (repeatability.from === 'repeats') return Math.max(repeatability.mm / many, rounding);
  const repeat = repeatability.from === 'stated' ? repeatability.mm : division / 2;
  return Math.hypot(rounding, repeat / many);
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
