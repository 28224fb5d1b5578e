import { designPower, type DesignPower } from '../fit/designPower.ts';
import { roughnessFloor } from './fitReadings.ts';

/** What is planned, before anything is read. Lengths in mm. */
export interface PlannedLine {
  /** Forward of the transom, any order. */
  readonly stations: readonly number[];
  /** Standard uncertainty of one reading. */
  readonly u: number;
  readonly tolerance: number;
  readonly over: number;
  readonly limit: number;
  readonly unit: 'mm' | 'in';
  /** How often the edge is laid and every station read; once where absent. */
  readonly layings?: number;
}

export type CanProve =
  | {
      readonly ok: true;
      /** The least depth of hollow that would be proven, mm; absent where not even six tolerances would be. */
      readonly hookFrom?: number;
      /** The least height of hump: the same, since mirroring the readings mirrors the verdict exactly. */
      readonly rockerFrom?: number;
      /** The largest departure that would be proven fair, mm; absent where not even a straight line would be. */
      readonly fairUpTo?: number;
      /** How often, of such lines. */
      readonly chance: number;
      /** How long the hollow is that this was worked out with, mm. */
      readonly length: number;
      /** The shortest feature that these stations can show, by stretch of the line, from the transom on. */
      readonly shortest: readonly ShortestSeen[];
    }
  | {
      readonly ok: false;
      readonly reason: 'too few stations';
      readonly n: number;
      readonly needed: number;
    };

/** Over a stretch of the line, about three spacings: nothing shorter can be seen there. mm. */
export interface ShortestSeen {
  readonly from: number;
  readonly to: number;
  readonly length: number;
}

/** A hollow deeper than this many tolerances is not tried. */
const DEEPEST = 6;
/** How often a depth that is told is proven. */
export const CHANCE = 0.9;
/** A figure is good to this share of the tolerance. */
const FINE = 1 / 32;
/** A spacing cannot show a feature shorter than about this many times itself. */
export const SPACINGS = 3;

/** What a gauge and a set of stations can prove of one line: a smooth hollow (one whole cosine wave) over the middle half
 *  of the judged stretch, at most the edge's length, that nine of ten surveys would prove, and the deepest that nine
 *  of ten would prove fair. Worked out without readings (src/fit/designPower.ts). A shorter hollow needs more. Layings
 *  over the same stations are as good as one whose readings are surer by their root.
 *  Throws RangeError on lengths that are not positive and finite. */
export function canProve(planned: PlannedLine): CanProve {
  const judged = judgedStations(planned);
  const power = powerOf(planned, judged);
  if (!power.ok) {
    return { ok: false, reason: 'too few stations', n: judged.length, needed: power.needed };
  }
  const { tolerance, over } = planned;
  const proves = (depth: number) => power.proves(depth, CHANCE);
  const fails = (depth: number) => !power.provesFair(depth, CHANCE);
  const hook = leastDepth(tolerance, DEEPEST * tolerance, tolerance * FINE, proves);
  const unfair = fails(0) ? 0 : (leastDepth(0, tolerance, tolerance * FINE, fails) ?? tolerance);
  return {
    ok: true,
    ...(hook !== undefined && { hookFrom: hook, rockerFrom: hook }),
    ...(unfair > 0 && { fairUpTo: Math.max(0, unfair - tolerance * FINE) }),
    chance: CHANCE,
    length: hollowOf(judged, over).length,
    shortest: shortestSeen(judged),
  };
}

/** Whether a plan proves a hook of that depth nine times of ten; false where it has too few stations. */
export function provesHook(planned: PlannedLine, depth: number): boolean {
  const power = powerOf(planned, judgedStations(planned));
  return power.ok && power.proves(depth, CHANCE);
}

/** The shortest feature that stations can show, stretch by stretch: three spacings, neighbouring ones of about one
 *  spacing taken together. `stations`: ascending, mm. */
export function shortestSeen(stations: readonly number[]): readonly ShortestSeen[] {
  const stretches: ShortestSeen[] = [];
  for (let i = 1; i < stations.length; i++) {
    const [from, to] = [stations[i - 1], stations[i]];
    const length = SPACINGS * (to - from);
    const last = stretches.at(-1);
    if (last !== undefined && Math.abs(last.length - length) < ALIKE * last.length) {
      stretches[stretches.length - 1] = { ...last, to, length: Math.max(last.length, length) };
    } else stretches.push({ from, to, length });
  }
  return stretches;
}

/** Spacings that differ by less than this share are one. */
const ALIKE = 0.2;

function judgedStations({ stations, limit }: PlannedLine): readonly number[] {
  return [...new Set(stations)].filter((x) => x <= limit).sort((a, b) => a - b);
}

function powerOf(
  planned: PlannedLine,
  stations: readonly number[],
): DesignPower | { readonly ok: false; readonly needed: number } {
  const { u, tolerance, over, limit, layings = 1 } = planned;
  for (const [name, value] of Object.entries({ u, tolerance, over, limit, layings })) {
    if (!(value > 0 && value < Infinity)) {
      throw new RangeError(`${name}: a positive length expected, got ${value}`);
    }
  }
  const surer = u / Math.sqrt(layings);
  const floor = roughnessFloor(tolerance);
  if (stations.length < 2) return { ok: false, needed: LEAST };
  const { from, length } = hollowOf(stations, over);
  return designPower({ stations, u: surer, tolerance, over, floor }, { from, to: from + length });
}

/** Fewest stations that a verdict can rest on. */
const LEAST = 4;

function hollowOf(stations: readonly number[], over: number) {
  const [aft, fore] = [stations[0], stations[stations.length - 1]];
  const length = Math.min((fore - aft) / 2, over);
  return { length, from: (aft + fore - length) / 2 };
}

/** The least depth from `low` to `high` at which something holds that holds for all deeper, to within `fine`. */
function leastDepth(
  low: number,
  high: number,
  fine: number,
  holds: (depth: number) => boolean,
): number | undefined {
  if (!holds(high)) return undefined;
  let [below, above] = [low, high];
  while (above - below > fine) {
    // Depths are sought near the tolerance, where most of the answers lie.
    const middle = below + Math.min((above - below) / 2, Math.max(fine, below * 0.4));
    if (holds(middle)) above = middle;
    else below = middle;
  }
  return above;
}
