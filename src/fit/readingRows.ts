import { solveBackward, solveForward } from './arrowSystem.ts';
import { normalSequence } from './normalSequence.ts';
import type { Component, Profile } from './posterior.ts';

/** The height that a reading at a place sees, as weights on a profile's unknowns: the spline at x, and the own line of
 *  its placement where that is not the first. */
export interface ReadingRow {
  /** x scaled to 0..1 over the profile. */
  readonly place: number;
  readonly first: number;
  readonly values: Float64Array;
  readonly placement: number;
  /** In each component: what the inverse of its matrix makes of the row, times its noise squared. */
  readonly solved: readonly Float64Array[];
  /** In each component: its mean. */
  readonly means: readonly number[];
}

/** One draw of a profile's unknowns, with the component that it comes from. */
export interface UnknownsDraw {
  readonly unknowns: Float64Array;
  readonly noise: number;
}

export interface ReadingRows {
  /** The accounts of the profile that weigh something, weights summing to 1. */
  readonly components: readonly Component[];
  /** x within the profile's domain; `placement`: its index in the fit. */
  row(x: number, placement: number): ReadingRow;
  at(row: ReadingRow, unknowns: Float64Array): number;
  /** Of what two readings see in a component, without the readings' own noise. */
  covariance(a: ReadingRow, b: ReadingRow, component: number): number;
  /** Mirrored pairs from the fixed sequence, from pair `from` up to `to`. */
  draws(from: number, to: number): readonly UnknownsDraw[];
}

/** Components that together weigh less than this are left out. */
const NEGLIGIBLE = 0.02;

/** Rows of readings that were or might be made, with their covariances: what is needed to say what more of them would
 *  do, each worked out once. `negligible`: the weight of components that are left out, the lightest; with 0 all are
 *  kept as they stand. */
export function rowsOf(profile: Profile, negligible = NEGLIGIBLE): ReadingRows {
  const { basis, domain } = profile;
  const components = negligible > 0 ? heaviest(profile.components, negligible) : profile.components;
  const { size } = basis;
  const stride = size + components[0].factor.matrix.extra;
  const known = new Map<string, ReadingRow>();
  const at = (
    { place, first, values, placement }: Omit<ReadingRow, 'solved' | 'means'>,
    unknowns: Float64Array,
  ) => {
    let z = 0;
    for (let a = 0; a < 4; a++) z += values[a] * unknowns[first + a];
    if (placement > 0 && unknowns.length > size) {
      const e = size + 2 * (placement - 1);
      z -= unknowns[e] + place * unknowns[e + 1];
    }
    return z;
  };
  return {
    components,
    at,
    row(x, placement) {
      const key = `${x} ${placement}`;
      const former = known.get(key);
      if (former) return former;
      const place = (x - domain[0]) / (domain[1] - domain[0]);
      if (!(place >= -1e-9 && place <= 1 + 1e-9)) {
        throw new RangeError(`x within ${domain[0]}..${domain[1]} expected, got ${x}`);
      }
      const inside = Math.min(1, Math.max(0, place));
      const values = new Float64Array(4);
      const first = basis.valuesAt(inside, values);
      const bare = { place: inside, first, values, placement };
      const solved = components.map(({ factor, noise }) => {
        const right = new Float64Array(stride);
        right.set(values, first);
        if (placement > 0) {
          right[size + 2 * (placement - 1)] = -1;
          right[size + 2 * (placement - 1) + 1] = -inside;
        }
        solveForward(factor, right);
        solveBackward(factor, right);
        for (let j = 0; j < stride; j++) right[j] *= noise * noise;
        return right;
      });
      const means = components.map(({ coefficients }) => at(bare, coefficients));
      const row = { ...bare, solved, means };
      known.set(key, row);
      return row;
    },
    covariance: (a, b, component) => at(a, b.solved[component]),
    draws(from, to) {
      const normals = normalSequence(to * stride);
      const draws: UnknownsDraw[] = [];
      for (let k = from; k < to; k++) {
        const { coefficients, factor, noise } = components[chosenAt(components, k)];
        const deviation = Float64Array.from(normals.subarray(k * stride, (k + 1) * stride));
        solveBackward(factor, deviation);
        for (const sign of [1, -1]) {
          const unknowns = coefficients.map((c, j) => c + sign * noise * deviation[j]);
          draws.push({ unknowns, noise });
        }
      }
      return draws;
    },
  };
}

function heaviest(all: readonly Component[], negligible: number): readonly Component[] {
  const sorted = [...all].sort((a, b) => b.weight - a.weight);
  let total = 0;
  const kept = sorted.filter(({ weight }) => {
    const needed = total < 1 - negligible;
    if (needed) total += weight;
    return needed;
  });
  return kept.map((component) => ({ ...component, weight: component.weight / total }));
}

/** Which of the weights the k-th of a sequence takes: by van der Corput's levels, so that every beginning of the
 *  sequence has them in proportion. */
export function chosenAt(weighed: readonly { readonly weight: number }[], k: number): number {
  let level = 0;
  for (let digit = 0.5, rest = k + 1; rest > 0; rest >>= 1, digit /= 2) level += digit * (rest & 1);
  let sum = 0;
  for (let c = 0; c < weighed.length; c++) {
    sum += weighed[c].weight;
    if (sum > level) return c;
  }
  return weighed.length - 1;
}
