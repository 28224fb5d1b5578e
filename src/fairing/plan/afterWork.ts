import { accounts, simplestAccount } from '../../fit/account.ts';
import { chords } from '../../fit/departures.ts';
import { judge, type Judgement, type ProfilePoint } from '../../fit/judge.ts';
import type { Judged } from '../../survey/assessment.ts';
import type { WorkUnit } from '../../survey/figures.ts';
import type { Tolerance } from '../../survey/survey.ts';
import { showLength } from '../../survey/units.ts';
import { heightAt } from '../heightAt.ts';
import type { AfterWork, Rounding } from './plan.ts';
import { fittedOf, withDepth } from './surfaceDraws.ts';

/** The stretch that a tail angle speaks of, mm, as everywhere in the house. */
const TAIL = 300;
const FINER = 4;

export interface Done {
  /** What is put on (above 0) or taken off at x, mm, 0 ahead of the forward limit. */
  readonly exact: (x: number) => number;
  /** The same with the figures of the stations rounded to a step. */
  readonly rounded: (x: number, step: number) => number;
  readonly step: number;
  /** Largest difference between a depth and its figure at a station. */
  readonly most: number;
}

/** What the line will be: the profile as it was measured, as unsure as it is, with the rounded depths on it, judged
 *  as any line is. Between two stations the board is taken to carry the difference of rounding evenly from one to the
 *  next; how well the work is done is not in it. Rounding cannot take a line out of tolerance unseen: the departure is
 *  worked out with and without it, and where fair is not proven the judgement is made again without it. */
export function afterWork(
  judged: Judged,
  done: Done,
  tolerance: Tolerance,
  unit: WorkUnit,
): AfterWork {
  const { step, exact, rounded } = done;
  const verdictOf = (depth: (x: number) => number) => judgedAfter(judged, depth, tolerance);
  const after = verdictOf((x) => rounded(x, step));
  const fair = after.verdict.includes('fair');
  const fairIfExact = fair || (done.most > 0 && verdictOf(exact).verdict.includes('fair'));
  return {
    verdict: after.verdict,
    hollow: after.hollow,
    hump: after.hump,
    fairness: after.fairness,
    rounding: roundingOf(judged, done, tolerance, unit, fair !== fairIfExact),
  };
}

function judgedAfter(
  judged: Judged,
  depth: (x: number) => number,
  { gap, over }: Tolerance,
): Judgement {
  const profile = withDepth(fittedOf(judged).profile, depth);
  const limit = judged.judgement.judged[1];
  return judge(profile, { tolerance: gap, over, limit, tail: TAIL }, judged.systematic);
}

function roundingOf(
  { judgement }: Judged,
  { step, most, exact, rounded }: Done,
  tolerance: Tolerance,
  unit: WorkUnit,
  provesLess: boolean,
): Rounding {
  const departing = (depth: (x: number) => number) =>
    largestDeparture(judgement.profile, depth, judgement.judged, tolerance);
  const departure = { exact: departing(exact), rounded: departing((x) => rounded(x, step)) };
  const over = departure.rounded > tolerance.gap && departure.exact <= tolerance.gap;
  if (!over && !provesLess) return { step, most, departure, breaks: false };
  // Half way between exact depths and the tolerance leaves room for what is not known of the surface.
  const enough = (departure.exact + tolerance.gap) / 2;
  const finer = Array.from({ length: FINER }, (_, k) => step / 2 ** (k + 1)).find(
    (s) => departing((x) => rounded(x, s)) <= enough,
  );
  const size = (mm: number) => `${showLength(mm, { unit: 'mm', decimals: 2 })} mm`;
  const words = [
    over
      ? `Rounded to ${stepWords(step, unit)}, the finished line would depart by ${size(departure.rounded)} where ${size(tolerance.gap)} is allowed; with exact depths by ${size(departure.exact)}.`
      : `Rounded to ${stepWords(step, unit)}, fair would no longer be proven; with exact depths it would.`,
    finer === undefined ? 'Work to exact depths here.' : `Work to ${stepWords(finer, unit)} here.`,
  ].join(' ');
  return { step, most, departure, breaks: true, words };
}

function stepWords(step: number, unit: WorkUnit): string {
  if (unit === 'in') {
    const parts = 25.4 / step;
    if (Math.abs(parts - Math.round(parts)) < 1e-6) return `1/${Math.round(parts)} in`;
  }
  return `${Number(step.toFixed(3))} mm`;
}

/** Largest hollow or hump that counts, of the surface as likely, once the simplest account is taken. */
function largestDeparture(
  profile: readonly ProfilePoint[],
  depth: (x: number) => number,
  [from, to]: readonly [number, number],
  { gap, over }: Tolerance,
): number {
  const on = chords(from, to, over, { windows: 10 });
  const z = on.x.map((x) => heightAt(profile, x) + depth(x));
  const same = 1e-9 * gap;
  const { hollow, hump } = simplestAccount(accounts(z, on), gap, { left: same, size: same });
  return Math.max(...hollow, ...hump);
}
