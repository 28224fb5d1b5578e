import { posteriorDraws } from './posteriorDraws.ts';
import type { Profile } from './posterior.ts';
import { withSystematic, type SystematicMode } from './systematic.ts';

/** A line's profile as one survey found it, with what bends it whole and is not the same in the other survey. An
 *  error that both share, such as the bow of one edge laid the same way, cancels and is left out. */
export interface Surveyed {
  readonly profile: Profile;
  readonly systematic?: readonly SystematicMode[];
}

export interface DrawnPair {
  readonly first: Float64Array;
  readonly second: Float64Array;
}

/** Where the other profile's draws begin in the fixed sequence: past any that the first can use. */
const APART = 2048;

/** Draws of two profiles that owe nothing to one another, in mirrored pairs (2k + 1 is 2k mirrored), pairs `from` up
 *  to `to`. One takes the beginning of the fixed sequence, the other a stretch far along it, in a strided order so
 *  that a rough account of one does not always meet a rough one of the other. Which is which goes by what the
 *  profiles say, not by which is named first: exchanging them exchanges the draws and nothing else. */
export function differenceDraws(
  first: Surveyed,
  second: Surveyed,
): (from: number, to: number) => readonly DrawnPair[] {
  const inOrder = comesFirst(first.profile, second.profile);
  const [near, far] = inOrder ? [first, second] : [second, first];
  return (from, to) => {
    const count = to - from;
    const stride = strideFor(count);
    const one = drawsOf(near, from, to);
    const other = drawsOf(far, APART + from, APART + to);
    return one.map((draw, i) => {
      const k = Math.floor(i / 2);
      const partner = other[2 * ((k * stride) % count) + (i % 2)];
      return inOrder ? { first: draw, second: partner } : { first: partner, second: draw };
    });
  };
}

function drawsOf({ profile, systematic = [] }: Surveyed, from: number, to: number) {
  return withSystematic(posteriorDraws(profile, from, to), systematic, from);
}

function comesFirst(a: Profile, b: Profile): boolean {
  if (a.n !== b.n) return a.n < b.n;
  const [one, other] = [a, b].map(({ components }) => components[0].coefficients);
  if (one.length !== other.length) return one.length < other.length;
  const at = one.findIndex((value, i) => value !== other[i]);
  return at < 0 || one[at] < other[at];
}

/** The number nearest below the golden part of a count that shares no divisor with it. */
function strideFor(count: number): number {
  let stride = Math.max(1, Math.floor(count * 0.618));
  while (divisor(stride, count) !== 1) stride--;
  return stride;
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}
