import type { Deepest, ProfilePoint } from '../fit/judge.ts';
import type { Judged, LineAssessment } from './assessment.ts';
import { showPlace, showStretch, type WorkUnit } from './figures.ts';

/** Two-sided spread at which a class is proven (97.5 % on one side). */
const SPREAD = 1.96;
/** More repeats than this nobody does. */
const MOST_REPEATS = 6;
/** A departure known this many times worse than a single reading is blurred by what lies between the
 *  stations, which no repeat shows. */
const BETWEEN_STATIONS = 2;

/** What would decide an undecided line, from what is known of it: closer stations where the departure is
 *  narrower than they can show, repeats where they would suffice, a finer gauge where rounding is what
 *  blurs. One sentence each, most useful first; empty where nothing is undecided. */
export function nextSteps(
  { outcome, points }: LineAssessment,
  tolerance: number,
  unit: WorkUnit,
): readonly string[] {
  if (!outcome.ok) {
    const missing = outcome.needed - outcome.n;
    if (missing <= 0) {
      return ['Look for a station, tolerance or gauge division that was mistyped.'];
    }
    return [
      `Read at least ${missing} more station${missing === 1 ? '' : 's'}: ${outcome.needed} are the least a verdict can rest on, 10 or more are usual.`,
    ];
  }
  const { judgement } = outcome;
  const open = judgement.sections.filter((s) => !s.proven);
  if (open.length === 0 || !judgement.verdict.includes('undecided')) return [];
  const { hollow, hump } = judgement;
  const deepest = hollow.size >= hump.size ? hollow : hump;
  const steps: string[] = [];

  // What is not told from none has no width to speak of.
  const narrow = deepest.size > 2 * deepest.u ? sparseAround(outcome, points, deepest) : undefined;
  if (narrow) {
    steps.push(
      `Read closer stations from ${showStretch(narrow.from, narrow.to, unit)}: the departure there is narrower than ${showPlace(3 * narrow.spacing, unit)}, which is the least that stations ${showPlace(narrow.spacing, unit)} apart can show.`,
    );
  }
  const between = deepest.u > BETWEEN_STATIONS * outcome.readingUncertainty;
  if (between && !narrow) {
    steps.push(
      'Read more stations, halfway between those read: what lies between them is less certain than the readings themselves.',
    );
  }
  const margin = Math.abs(deepest.size - tolerance);
  const repeats = Math.ceil(((SPREAD * deepest.u) / margin) ** 2);
  if (!between && repeats <= MOST_REPEATS) {
    steps.push(
      repeats <= 2
        ? 'Lay the edge again and read the line once more: two layings may be enough.'
        : `Lay the edge again and read the line ${repeats - 1} more times: about ${repeats} layings in all may be enough.`,
    );
  }
  const roundingShare = outcome.division / Math.sqrt(12) / outcome.readingUncertainty;
  if (!between && roundingShare >= 0.5 - 1e-9) {
    steps.push(
      `Read with a finer gauge: half or more of each reading's uncertainty comes from its division.`,
    );
  }
  if (!between && repeats > MOST_REPEATS) {
    steps.push(
      `The deepest departure is so near the tolerance that repeats alone would hardly decide it: agree what counts, or treat the line as at its limit.`,
    );
  }
  return steps;
}

/** The stretch around the deepest departure, where its stations stand too far apart for its width. */
function sparseAround(
  { judgement }: Judged,
  points: LineAssessment['points'],
  deepest: Deepest,
): { readonly from: number; readonly to: number; readonly spacing: number } | undefined {
  const { at } = deepest;
  const stations = [...new Set(points.map((p) => p.station))].sort((a, b) => a - b);
  const aft = stations.filter((x) => x <= at).at(-1);
  const fore = stations.find((x) => x > at);
  if (aft === undefined || fore === undefined) return undefined;
  const spacing = fore - aft;
  if (widthOf(deepest, judgement.profile) >= 3 * spacing) return undefined;
  const start = Math.max(judgement.judged[0], at - 1.5 * spacing);
  const end = Math.min(judgement.judged[1], at + 1.5 * spacing);
  return { from: start, to: end, spacing };
}

/** About how wide a departure is: twice the stretch over which it keeps half of its size. Its chord may
 *  be much longer (over a straight bottom all chords show the same), and the stretch beyond tolerance
 *  much shorter. */
function widthOf({ at, from, to }: Deepest, profile: readonly ProfilePoint[]): number {
  const nearest = (x: number) =>
    profile.reduce(
      (best, p, i) => (Math.abs(p.x - x) < Math.abs(profile[best].x - x) ? i : best),
      0,
    );
  const [middle, first, last] = [at, from, to].map(nearest);
  if (last === first) return 0;
  const [a, b] = [profile[first], profile[last]];
  const off = (i: number) => {
    const { x, z } = profile[i];
    return Math.abs(z - a.z - ((b.z - a.z) * (x - a.x)) / (b.x - a.x));
  };
  const half = off(middle) / 2;
  let aft = middle;
  while (aft > first && off(aft - 1) >= half) aft--;
  let fore = middle;
  while (fore < last && off(fore + 1) >= half) fore++;
  return 2 * (profile[fore].x - profile[aft].x);
}
