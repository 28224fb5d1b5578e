import { assess } from './assess.ts';
import type { Survey } from './survey.ts';

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
}

export type CanProve =
  | {
      readonly ok: true;
      /** The least depth of hollow that would be proven, mm; absent where not even six tolerances would be. */
      readonly hookFrom?: number;
      /** The largest depth that would be proven fair, mm; absent where not even a straight line would be. */
      readonly fairUpTo?: number;
      /** How long the hollow is that this was worked out with, mm. */
      readonly length: number;
    }
  | {
      readonly ok: false;
      readonly reason: 'too few stations';
      readonly n: number;
      readonly needed: number;
    };

/** A hollow deeper than this many tolerances is not tried. */
const DEEPEST = 6;
/** Steps that a tolerance is divided into: what is found is good to one of them. */
const STEPS = 16;

/** What a gauge and a set of stations can prove of one line, laid once. The planned stations are given the readings of
 *  a smooth hollow (one whole cosine wave) over the middle half of the judged stretch, at most the edge's length, at
 *  one depth after another, and are assessed as any survey is; the least depth that comes out as hook and the largest
 *  that comes out as fair are found by halving. The readings have no slips in them, so that at the depth told a real
 *  line is proven about every other time, and nearly always a reading uncertainty or two beyond; a hollow shorter than
 *  that needs more. A hump is the mirror image.
 *  Throws RangeError on lengths that are not positive and finite. */
export function canProve(planned: PlannedLine): CanProve {
  const { stations, u, tolerance, over, limit } = planned;
  for (const [name, value] of Object.entries({ u, tolerance, over, limit })) {
    if (!(value > 0 && value < Infinity)) {
      throw new RangeError(`${name}: a positive length expected, got ${value}`);
    }
  }
  const judged = [...new Set(stations)].filter((x) => x <= limit).sort((a, b) => a - b);
  const verdict = (depth: number) => {
    const [line] = assess(lineWith(judged, depth, planned), {
      tolerance,
      over,
      limit,
      repeatability: u,
      resolution: u / 1000,
    }).lines;
    return line.outcome;
  };
  const straight = verdict(0);
  if (!straight.ok) {
    return { ok: false, reason: 'too few stations', n: straight.n, needed: straight.needed };
  }
  const says = (what: 'hook' | 'fair', step: number) => {
    const outcome = verdict((step * tolerance) / STEPS);
    return outcome.ok && outcome.judgement.verdict.includes(what);
  };
  const hook = firstStep(STEPS, DEEPEST * STEPS, (step) => says('hook', step));
  const unfair = firstStep(0, STEPS, (step) => !says('fair', step)) ?? STEPS + 1;
  return {
    ok: true,
    ...(hook !== undefined && { hookFrom: (hook * tolerance) / STEPS }),
    ...(unfair > 0 && { fairUpTo: ((unfair - 1) * tolerance) / STEPS }),
    length: hollowOf(judged, over).length,
  };
}

/** The first step from `low` to `high` at which something holds that holds for all later ones. */
function firstStep(
  low: number,
  high: number,
  holds: (step: number) => boolean,
): number | undefined {
  if (!holds(high)) return undefined;
  let [from, to] = [low - 1, high];
  while (to - from > 1) {
    const middle = Math.floor((from + to) / 2);
    if (holds(middle)) to = middle;
    else from = middle;
  }
  return to;
}

function hollowOf(stations: readonly number[], over: number) {
  const [aft, fore] = [stations[0], stations[stations.length - 1]];
  const length = Math.min((fore - aft) / 2, over);
  return { length, from: (aft + fore - length) / 2 };
}

function lineWith(stations: readonly number[], depth: number, { unit, over }: PlannedLine): Survey {
  const { from, length } = hollowOf(stations, over);
  const gapAt = (x: number) => {
    const along = (x - from) / length;
    return along <= 0 || along >= 1 ? 0 : (depth * (1 - Math.cos(2 * Math.PI * along))) / 2;
  };
  const readings = stations.map((x) => ({
    station: { mm: x, text: `${x} mm` },
    gap: { mm: gapAt(x), text: '' },
    look: 1,
    source: 'planned',
  }));
  const placement = {
    id: 'planned',
    name: '1',
    repeat: 1,
    held: 'resting',
    readings,
    voids: [],
    later: [],
  } as const;
  return {
    conditions: {},
    support: [],
    workUnit: unit,
    kind: 'hand',
    lines: [{ id: 'planned', name: 'planned', side: 'centre', offset: 0, placements: [placement] }],
  };
}
