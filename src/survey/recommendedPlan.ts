import { provesHook, SPACINGS, type PlannedLine } from './canProve.ts';
import { finerGauges } from './gaugeLadder.ts';
import type { Typed } from './survey.ts';
import { UNITS } from './units.ts';

/** What a plan is to reach: a hook of a depth that it proves nine times of ten, a feature of a length that it can show
 *  over the last stretch before the transom (and one twice as long farther forward), or both. mm. */
export interface PlanAim {
  readonly hook?: number;
  readonly feature?: number;
}

export type RecommendedPlan =
  | {
      readonly ok: true;
      readonly stations: readonly Typed[];
      readonly layings: number;
      /** Spacing near the transom, up to where, and beyond, mm. */
      readonly spacing: { readonly near: number; readonly to: number; readonly beyond: number };
      readonly minutes: number;
    }
  | {
      readonly ok: false;
      readonly reason: 'gauge too coarse' | 'feature too short';
      /** The coarsest gauge with which a set would reach it; absent where none of the usual ones would. */
      readonly gauge?: { readonly mm: number; readonly text: string };
    };

/** Spacings near the transom and beyond, in the person's unit, and how far the near ones reach: twice as close over the
 *  last 18 in. Common practice, no source: every 2 to 3 in over the last 18 in, then every 6 in. */
const SETS = {
  in: {
    to: 18,
    steps: [
      [3, 6],
      [2, 4],
      [1.5, 3],
      [1, 2],
    ],
  },
  mm: {
    to: 450,
    steps: [
      [75, 150],
      [50, 100],
      [30, 75],
      [25, 50],
    ],
  },
} as const;
const MOST_LAYINGS = 3;
/** House figures: minutes that a reading and a laying take. */
const MINUTES = { reading: 1, laying: 5 } as const;

/** The set of stations, and how often to lay the edge, that reaches an aim in the fewest minutes; where the gauge cannot
 *  reach it, the gauge that could. `planned`: its stations are those it has now, of which only the first counts: where
 *  the line can be read from, and how often it is to be laid does not. `uWith`: uncertainty of a reading with a gauge of another division.
 *  Throws RangeError on lengths that are not positive and finite. */
export function recommendedPlan(
  planned: PlannedLine,
  aim: PlanAim,
  division: number,
  uWith: (division: number) => number,
): RecommendedPlan {
  const { unit } = planned;
  const size = UNITS[unit].mm;
  const { to, steps } = SETS[unit];
  const feature = aim.feature ?? Infinity;
  const close = steps.filter(
    ([near, beyond]) =>
      SPACINGS * near * size <= feature && SPACINGS * beyond * size <= 2 * feature,
  );
  if (close.length === 0) return { ok: false, reason: 'feature too short' };
  const plans = close
    .flatMap(([near, beyond]) => {
      const stations = stationsEvery(near, beyond, to, planned);
      return Array.from({ length: MOST_LAYINGS }, (_, i) => ({
        stations,
        layings: i + 1,
        spacing: { near: near * size, to: to * size, beyond: beyond * size },
        minutes: (i + 1) * (MINUTES.laying + MINUTES.reading * stations.length),
      }));
    })
    .sort((a, b) => a.minutes - b.minutes);
  const reaches = ({ stations, layings }: (typeof plans)[number], u: number) =>
    aim.hook === undefined ||
    provesHook({ ...planned, stations: stations.map(({ mm }) => mm), u, layings }, aim.hook);
  // The closest set, laid most often: what that cannot reach no other can.
  const strongest = plans[plans.length - 1];
  const found = reaches(strongest, planned.u)
    ? plans.find((plan) => plan === strongest || reaches(plan, planned.u))
    : undefined;
  if (found) return { ok: true, ...found };
  const gauge = finerGauges(division, unit).find(({ mm }) => reaches(strongest, uWith(mm)));
  return { ok: false, reason: 'gauge too coarse', ...(gauge && { gauge }) };
}

/** Marks from the first station that can be read to the limit, which is the last. */
function stationsEvery(
  near: number,
  beyond: number,
  to: number,
  { stations, limit, unit }: Pick<PlannedLine, 'stations' | 'limit' | 'unit'>,
): readonly Typed[] {
  const { mm } = UNITS[unit];
  const first = stations.length === 0 ? 0 : Math.max(0, Math.min(limit, ...stations));
  const marks: Typed[] = [];
  const add = (place: number) =>
    marks.push({ mm: place, text: `${Number((place / mm).toFixed(3))} ${unit}` });
  add(first);
  for (let place = 0; place * mm < limit - 1e-6; place += place < to ? near : beyond) {
    if (place * mm > first + near * mm * 0.25) add(place * mm);
  }
  add(limit);
  return marks;
}
