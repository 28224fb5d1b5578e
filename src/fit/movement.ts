import { quantile } from 'simple-statistics';
import { accounts, simplestAccount, type Accounts } from './account.ts';
import { countedIn, type Counted } from './counted.ts';
import { chords, hollow, hump, type Chords } from './departures.ts';
import { differenceDraws, type Surveyed } from './differenceDraws.ts';
import { dot, heightsAt } from './functionals.ts';
import {
  accountedSurfaces,
  deepest,
  detrended,
  PROVEN,
  type Deepest,
  type ProfilePoint,
} from './judge.ts';
import { pairedMoments } from './pairedMoments.ts';
import { meanCoefficients } from './posterior.ts';
import { sectionsOf } from './sections.ts';
import { tailWeights } from './tail.ts';

/** What is asked of two profiles of one line. Lengths in x's unit; `tolerance` and `least` in the gaps' unit. */
export interface MovementQuestion {
  /** No chord is longer than this. */
  readonly over: number;
  /** Compared no farther forward than this. */
  readonly limit: number;
  readonly tail: number;
  /** The change that matters: not moved is said only where one of this size is ruled out. */
  readonly tolerance: number;
  /** A change that is laid to the measuring itself, however fine the readings: marks, temperature, the laying. */
  readonly least: number;
}

export type MovementClass = 'moved' | 'not moved' | 'cannot tell';

/** A longest stretch that changed one way, or in which no change stands out. `in`: the surface went hollow (its
 *  height fell against a chord); `out`: it went proud. */
export interface MovementSection {
  readonly from: number;
  readonly to: number;
  readonly class: MovementClass;
  readonly way: 'in' | 'out' | 'none';
  /** Where it changed: that the two surveys would show less of a surface that did not move, and that the least change
   *  that counts is exceeded, whichever is less. Elsewhere: that nothing changed by more than the tolerance. */
  readonly probability: number;
}

/** Change of the tail's angle, degrees, positive turned towards the water. */
export interface TailChange {
  readonly angle: number;
  readonly u: number;
  readonly over: number;
  /** Beyond what the readings, and the least change that counts, would show of themselves. */
  readonly proven: boolean;
}

export interface Movement {
  readonly ok: true;
  readonly class: MovementClass;
  readonly sections: readonly MovementSection[];
  /** The greatest change either way, as a departure of the difference that counts. */
  readonly inward: Deepest;
  readonly outward: Deepest;
  readonly tail?: TailChange;
  /** A change must be proven to exceed this before it is called one: what the two surveys would show of a surface
   *  that did not move (95 %), or `least` where that is more. */
  readonly threshold: number;
  /** The smallest change that would have been called one with a probability of 95 % or so. */
  readonly visible: number;
  /** Probability that nothing changed by more than the tolerance. */
  readonly stillness: number;
  /** Second less first, as heights against its own least-squares line, with standard uncertainties. */
  readonly difference: readonly ProfilePoint[];
  readonly compared: readonly [number, number];
}

export interface MovementRefusal {
  readonly ok: false;
  readonly reason: 'no common stretch';
}

/** Pairs of draws, and where a probability must lie for the stage to be gone on to. */
const STAGES = [
  { pairs: 100, where: [0, 1] },
  { pairs: 200, where: [0.8, 0.999] },
  { pairs: 600, where: [0.9, 0.985] },
] as const;

/** The share of surfaces that did not move which show less than the threshold. */
const UNLIKE = 0.95;

/** How far a normal figure must lie from 0, in standard uncertainties, to be proven at 97.5 % to be none either way; and
 *  how far what is found 95 times of 100 must lie above what finds it. */
const K975 = 2.2414;
const FOUND = 1.645;

/** Whether a line's surface moved between two surveys, from the difference of the two posteriors, which like each of
 *  them is known up to a straight line; its hollows and humps are taken as a judgement takes them.
 *  A surface that did not move still seems to, by what the readings scatter: draws of the difference less their mean
 *  show how much. A stretch has moved where the mean difference departs by more than 95 % of those draws show
 *  anywhere, and the draws prove at 97.5 % that it departs by more than the least change that counts. The line has
 *  moved where a stretch has, or the tail has turned; it has not where neither has and 97.5 % of draws depart nowhere
 *  by more than the tolerance. Exchanging the two turns every sign and changes no other bit (test/fit/movement.test.ts).
 *  Throws RangeError on a question whose lengths are not positive; refuses where the two have no stretch in common. */
export function movement(
  first: Surveyed,
  second: Surveyed,
  question: MovementQuestion,
): Movement | MovementRefusal {
  for (const [name, value] of Object.entries(question)) {
    if (!(Number(value) > 0)) throw new RangeError(`${name}: a positive number expected`);
  }
  const { over, limit, tolerance, least } = question;
  const from = Math.max(first.profile.domain[0], second.profile.domain[0]);
  const to = Math.min(first.profile.domain[1], second.profile.domain[1], limit);
  if (!(to > from)) return { ok: false, reason: 'no common stretch' };
  const on = chords(from, to, over, { windows: 10 });
  const drawn = differenceDraws(first, second);
  const heights = [heightsAt(first.profile, on.x), heightsAt(second.profile, on.x)] as const;
  const difference = (a: Float64Array, b: Float64Array) => {
    const [z1, z2] = [heights[0](a), heights[1](b)];
    return z2.map((z, i) => z - z1[i]);
  };
  const meanDifference = difference(
    meanCoefficients(first.profile),
    meanCoefficients(second.profile),
  );

  const pairs: { readonly first: Float64Array; readonly second: Float64Array }[] = [];
  const draws: Float64Array[] = [];
  const all: Accounts[] = [];
  const drawUpTo = (count: number) => {
    for (const pair of drawn(pairs.length / 2, count)) {
      const d = difference(pair.first, pair.second);
      pairs.push(pair);
      draws.push(d);
      all.push(accounts(d, on));
    }
  };
  drawUpTo(STAGES[0].pairs);
  const still = stillDraws(draws);
  const seen = mostSeen(still, on);
  const threshold = Math.max(least, quantile(seen, UNLIKE));
  const bound = Math.max(tolerance, threshold);
  const meanAccounts = accounts(meanDifference, on);
  const none = { left: 1e-9 * threshold, size: 1e-9 * threshold };
  const account = simplestAccount(meanAccounts, threshold, none);
  const one = { hollows: [account.hollow], humps: [account.hump], typical: account.told };
  const stretches = sectionsOf(one, on.x, threshold, PROVEN).sections;
  const judged = () => {
    const counted = countedIn(all, threshold);
    const largest = peaksOf(counted);
    const sections = stretches.map((s): MovementSection => {
      const { from: aft, to: fore, leaning } = s;
      const within = shareWithin(largest, on, bound, aft, fore);
      const unmoved = within >= PROVEN ? 'not moved' : 'cannot tell';
      if (leaning === 'fair') {
        return { from: aft, to: fore, class: unmoved, way: 'none', probability: within };
      }
      const way = leaning === 'hook' ? 'in' : 'out';
      const size = way === 'in' ? account.hollow : account.hump;
      const peak = peakWithin(size, on, aft, fore);
      const sizes = way === 'in' ? counted.hollows : counted.humps;
      const exceeds = sizes.filter((draw) => draw[peak] > least).length / sizes.length;
      const unlike = seen.filter((most) => most < size[peak]).length / seen.length;
      const word = exceeds >= PROVEN ? 'moved' : unmoved;
      return { from: aft, to: fore, class: word, way, probability: Math.min(exceeds, unlike) };
    });
    return { counted, sections, stillness: shareWithin(largest, on, bound, from, to) };
  };
  let found = judged();
  for (let stage = 1; stage < STAGES.length; stage++) {
    const [low, high] = STAGES[stage].where;
    const changed = found.sections.filter((s) => s.way !== 'none');
    const open = changed.some((s) => s.class === 'moved') ? changed : found.sections;
    const near = open.map((s) => s.probability);
    if (!near.some((p) => p > low && p < high)) break;
    drawUpTo(STAGES[stage].pairs);
    found = judged();
  }

  const { counted, sections, stillness } = found;
  const surface = accountedSurfaces(meanDifference, on, counted.typical);
  const tail = tailChange(first, second, pairs, { from, to, ...question });
  return {
    ok: true,
    class: classOf(sections, stillness, tail),
    sections,
    inward: deepest(counted.hollows, on, surface.forHollow, 1),
    outward: deepest(counted.humps, on, surface.forHump, -1),
    ...(tail && { tail }),
    threshold,
    visible: threshold + FOUND * leastSure(still, on),
    stillness,
    difference: detrended(draws, on).profile,
    compared: [from, to],
  };
}

function classOf(
  sections: readonly MovementSection[],
  stillness: number,
  tail: TailChange | undefined,
): MovementClass {
  if (tail?.proven || sections.some((s) => s.class === 'moved')) return 'moved';
  const noneMay = sections.every((s) => s.class === 'not moved');
  return noneMay && stillness >= PROVEN ? 'not moved' : 'cannot tell';
}

/** The larger of hollow and hump, at each place of each draw. */
function peaksOf({ hollows, humps }: Counted): readonly Float64Array[] {
  return hollows.map((h, k) => h.map((depth, i) => Math.max(depth, humps[k][i])));
}

function peakWithin(size: Float64Array, { x }: Chords, from: number, to: number): number {
  let peak = -1;
  for (let i = 0; i < x.length; i++) {
    if (x[i] >= from && x[i] <= to && (peak < 0 || size[i] > size[peak])) peak = i;
  }
  return peak;
}

/** The share of draws in which nothing between two places departs by more than the bound. */
function shareWithin(
  peaks: readonly Float64Array[],
  { x }: Chords,
  bound: number,
  from: number,
  to: number,
): number {
  let within = 0;
  for (const draw of peaks) {
    let beyond = false;
    for (let i = 0; i < x.length && !beyond; i++) {
      beyond = x[i] >= from && x[i] <= to && draw[i] > bound;
    }
    if (!beyond) within++;
  }
  return within / peaks.length;
}

/** Draws as they would be had nothing moved: their mean taken off. */
function stillDraws(draws: readonly Float64Array[]): readonly Float64Array[] {
  const mean = draws[0].map((_, i) => pairedMoments(draws.map((d) => d[i])).mean);
  return draws.map((d) => d.map((value, i) => value - mean[i]));
}

/** The largest departure of each draw. */
function mostSeen(still: readonly Float64Array[], on: Chords): number[] {
  const largest = (sizes: Float64Array) => sizes.reduce((a, b) => Math.max(a, b));
  return still.map((d) => Math.max(largest(hollow(d, on)), largest(hump(d, on))));
}

/** Standard uncertainty of the least known place, against the chord between the ends. */
function leastSure(still: readonly Float64Array[], { x }: Chords): number {
  const last = x.length - 1;
  const span = x[last] - x[0];
  let most = 0;
  for (let i = 1; i < last; i++) {
    const fore = (x[i] - x[0]) / span;
    const off = still.map((d) => d[i] - (d[0] * (1 - fore) + d[last] * fore));
    most = Math.max(most, pairedMoments(off).deviation);
  }
  return most;
}

function tailChange(
  first: Surveyed,
  second: Surveyed,
  pairs: readonly { readonly first: Float64Array; readonly second: Float64Array }[],
  question: MovementQuestion & { readonly from: number; readonly to: number },
): TailChange | undefined {
  const { from, to, tail: over, least } = question;
  const weights = [first, second].map(({ profile }) => tailWeights(profile, from, over, to));
  const [one, two] = weights;
  if (!one || !two) return undefined;
  const turned = pairs.map((pair) => dot(two, pair.second) - dot(one, pair.first));
  const { mean: angle, deviation: u } = pairedMoments(turned);
  const leastAngle = angleOver(least, over);
  return { angle, u, over, proven: Math.abs(angle) - K975 * u > leastAngle };
}

/** The angle, degrees, that raises a surface by a height over a length. */
export function angleOver(height: number, length: number): number {
  return (Math.atan(height / length) * 180) / Math.PI;
}
