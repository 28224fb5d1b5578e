import type { Judged, LineAssessment } from './assessment.ts';
import { showPlace, showStretch, type WorkUnit } from './figures.ts';

/** Two-sided spread at which a class is proven (97.5 % on one side). */
const SPREAD = 1.96;
/** More repeats than this nobody does. */
const MOST_REPEATS = 6;

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

  const narrow = sparseAround(outcome, points, deepest);
  if (narrow) {
    steps.push(
      `Read closer stations from ${showStretch(narrow.from, narrow.to, unit)}: the departure there is narrower than ${showPlace(3 * narrow.spacing, unit)}, which is the least that stations ${showPlace(narrow.spacing, unit)} apart can show.`,
    );
  }
  const margin = Math.abs(deepest.size - tolerance);
  const repeats = Math.ceil(((SPREAD * deepest.u) / margin) ** 2);
  if (repeats <= MOST_REPEATS) {
    steps.push(
      repeats <= 2
        ? 'Lay the edge again and read the line once more: two layings should decide it.'
        : `Lay the edge again and read the line ${repeats - 1} more times: about ${repeats} layings in all should decide it.`,
    );
  }
  const roundingShare = outcome.division / Math.sqrt(12) / outcome.readingUncertainty;
  if (roundingShare >= 0.5 - 1e-9) {
    steps.push(
      `Read with a finer gauge: half or more of each reading's uncertainty comes from its division.`,
    );
  }
  if (repeats > MOST_REPEATS) {
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
  { at, from, to }: { readonly at: number; readonly from: number; readonly to: number },
): { readonly from: number; readonly to: number; readonly spacing: number } | undefined {
  const section = judgement.sections.find(
    (s) => at >= s.from && at <= s.to && s.leaning !== 'fair',
  );
  const width = section ? section.to - section.from : to - from;
  const stations = [...new Set(points.map((p) => p.station))].sort((a, b) => a - b);
  const aft = stations.filter((x) => x <= at).at(-1);
  const fore = stations.find((x) => x > at);
  if (aft === undefined || fore === undefined) return undefined;
  const spacing = fore - aft;
  if (width >= 3 * spacing) return undefined;
  const start = Math.max(judgement.judged[0], at - 1.5 * spacing);
  const end = Math.min(judgement.judged[1], at + 1.5 * spacing);
  return { from: start, to: end, spacing };
}
