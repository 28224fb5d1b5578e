import type { CanProve } from './canProve.ts';
import { showPlace, showStretch, showTolerance, type WorkUnit } from './figures.ts';
import type { RecommendedPlan } from './recommendedPlan.ts';
import { showLength } from './units.ts';

/** What planned stations and a gauge can prove, in sentences: how deep a hook, what is fair, how short a feature. */
export function canProveWords(found: CanProve, unit: WorkUnit): readonly string[] {
  if (!found.ok) {
    return [
      `With ${found.n} station${found.n === 1 ? '' : 's'} within the limit nothing can be proven: ${found.needed} are the least.`,
    ];
  }
  const often = `${Math.round(10 * found.chance)} surveys of 10`;
  const hook =
    found.hookFrom === undefined
      ? 'no hook or rocker within reason'
      : `a hook or rocker of ${about(found.hookFrom, unit)} or more`;
  const long = `that is for a hollow or hump ${showPlace(found.length, unit)} long, and a shorter one needs more.`;
  return [
    found.fairUpTo === undefined
      ? `This gauge and these stations prove, in ${often}, ${hook}; ${long} They prove no line fair that often, not even a straight one: what is fair may stay undecided. A finer gauge, closer stations or laying the edge more than once helps.`
      : `This gauge and these stations prove, in ${often}, ${hook}, and as fair what departs by ${about(found.fairUpTo, unit)} or less; ${long} Between them a line more often stays undecided.`,
    shortestWords(found.shortest, unit),
  ];
}

/** "Nothing shorter than about 9 in can show from 0 to 18 in, 18 in from there to 60 in." */
function shortestWords(
  stretches: Extract<CanProve, { ok: true }>['shortest'],
  unit: WorkUnit,
): string {
  const parts = stretches.map(({ from, to, length }, i) => {
    return i === 0
      ? `${showPlace(length, unit)} can show from ${showStretch(from, to, unit)}`
      : `${showPlace(length, unit)} from there to ${showPlace(to, unit)}`;
  });
  if (parts.length <= MOST_STRETCHES) return `Nothing shorter than about ${parts.join(', ')}.`;
  const lengths = stretches.map(({ length }) => length);
  return `Nothing shorter than about ${showPlace(Math.min(...lengths), unit)} can show, and ${showPlace(Math.max(...lengths), unit)} where the stations are farthest apart.`;
}

const MOST_STRETCHES = 3;

/** A recommended set, or why there is none. `hook`: the depth that it was to prove, mm. */
export function recommendedWords(found: RecommendedPlan, hook: number, unit: WorkUnit): string {
  const aim = `a hook of ${about(hook, unit)}, 9 times of 10`;
  if (!found.ok) {
    if (found.reason === 'feature too short')
      return 'No usual set of stations shows features that short.';
    return found.gauge === undefined
      ? `No usual gauge and set of stations would prove ${aim}: agree on a wider tolerance.`
      : `With this gauge no usual set of stations would prove ${aim}; a gauge of ${found.gauge.text} could.`;
  }
  const { stations, layings, spacing, minutes } = found;
  const times = layings === 1 ? 'laid and read once' : `laid and read ${layings} times`;
  return `To prove ${aim}: every ${mark(spacing.near, unit)} to ${mark(spacing.to, unit)}, then every ${mark(spacing.beyond, unit)}: ${stations.length} stations, ${times}, about ${minutes} minutes a line.`;
}

function mark(mm: number, unit: WorkUnit): string {
  return showTolerance(mm, unit).endsWith(unit) ? showTolerance(mm, unit) : showPlace(mm, unit);
}

function about(mm: number, unit: WorkUnit): string {
  return `about ${unit === 'mm' ? showLength(mm, { unit, decimals: 1 }) : showLength(mm, { unit, denominator: 64 })} ${unit}`;
}
