import { readFileSync } from 'node:fs';
import { heightsAt } from '../../src/fit/functionals.ts';
import type { Profile } from '../../src/fit/posterior.ts';
import type { SplineBasis } from '../../src/fit/splineBasis.ts';
import type { PlacementReadings } from '../../src/fit/tied.ts';

/** A shape: height in mm, towards the water, at x mm forward. */
export type Shape = (x: number) => number;

/** Rows of numbers below a CSV file's head. */
export function csvRows(path: string): number[][] {
  const text = readFileSync(new URL(`../../fixtures/reference/${path}`, import.meta.url), 'utf8');
  return text
    .trim()
    .split('\n')
    .slice(1)
    .map((row) => row.split(',').map(Number));
}

/** Evenly spaced places, both ends included. */
export function places(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}

/** Readings of a shape: gap = offset + tilt·x − z, and noise where asked. */
export function readingsOf(
  shape: Shape,
  x: readonly number[],
  u: number,
  {
    offset = 0,
    tilt = 0,
    noise = () => 0,
  }: { readonly offset?: number; readonly tilt?: number; readonly noise?: () => number } = {},
): PlacementReadings {
  return {
    x,
    gap: x.map((at) => offset + tilt * at - shape(at) + u * noise()),
    u: x.map(() => u),
  };
}

/** Normal numbers of the tests' own, so that errors of readings owe nothing to the fit's sequence.
 *  Linear congruence modulo 2³² (Knuth's multiplier) and the central limit of twelve uniforms. */
export function seededNormals(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
  for (let i = 0; i < 8; i++) uniform();
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += uniform();
    return sum;
  };
}

/** Coefficients of the cubic a + bx + cx² + dx³: its blossom at three successive knots each.
 *  Source: de Boor, A Practical Guide to Splines (1978), ch. IX (Marsden's identity). */
export function cubicCoefficients(basis: SplineBasis, [a, b, c, d]: readonly number[]): number[] {
  const { breaks } = basis;
  const last = breaks.length - 1;
  const knot = (i: number) => breaks[Math.min(last, Math.max(0, i - 3))];
  return Array.from({ length: basis.size }, (_, j) => {
    const [p, q, r] = [knot(j + 1), knot(j + 2), knot(j + 3)];
    return a + (b * (p + q + r)) / 3 + (c * (p * q + q * r + r * p)) / 3 + d * p * q * r;
  });
}

/** Weights on coefficients that give how far z at the middle lies below the chord of the outer two. */
export function departureWeights(profile: Profile, [a, b, c]: readonly number[]): Float64Array {
  const heights = heightsAt(profile, [a, b, c]);
  return Float64Array.from({ length: profile.basis.size }, (_, j) => {
    const unit = new Float64Array(profile.basis.size);
    unit[j] = 1;
    const z = heights(unit);
    return (z[0] * (c - b) + z[2] * (b - a)) / (c - a) - z[1];
  });
}

/** The accounts in which a profile is as rough everywhere, weights summing to 1. */
export function heldEvenly(profile: Profile): Profile {
  const even = profile.components.filter((c) => c.stiffness.isEven);
  const total = even.reduce((sum, { weight }) => sum + weight, 0);
  return { ...profile, components: even.map((c) => ({ ...c, weight: c.weight / total })) };
}
