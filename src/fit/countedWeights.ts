import type { Account } from './account.ts';
import { chords, deepestChord, type Chords } from './departures.ts';
import { heightsAt } from './functionals.ts';
import type { Deepest } from './judge.ts';
import { meanCoefficients, type Profile } from './posterior.ts';

/** What a departure was judged on. */
export interface CountedOn {
  readonly judged: readonly [number, number];
  /** The longest chord allowed. */
  readonly over: number;
  readonly told: Account['told'];
}

/** Weights that cancel to this are none. */
const NOTHING = 1e-9;

/** Weights on a profile's coefficients that give a counted departure as a linear figure: depth under (or
 *  height over) its own chord, where it was found. The deepest of all chords has this figure's derivative
 *  at the posterior mean: where it lies does not change with small changes of the readings.
 *  `hollow`: how far the profile lies below the chord; `hump`: above it. What is left beside an account
 *  of the other kind is measured from the surface with that kind bridged, as it was counted.
 *  Undefined where the mean profile has no such departure there, or an account of the other kind bridges it
 *  whole: nothing to take apart. */
export function countedWeights(
  profile: Profile,
  { at, from, to }: Pick<Deepest, 'at' | 'from' | 'to'>,
  of: 'hollow' | 'hump',
  { judged, over, told }: CountedOn,
): Float64Array | undefined {
  if (!(at > from && to > at)) return undefined;
  const sign = of === 'hollow' ? 1 : -1;
  const beside = of === 'hollow' ? told === 'humps first' : told === 'hollows first';
  const on = beside ? chords(judged[0], judged[1], over, { windows: 10 }) : undefined;
  const z = on && heightsAt(profile, on.x)(meanCoefficients(profile));
  const weights = new Float64Array(profile.basis.size);
  const add = (x: number, factor: number): void => {
    const bridge = on && z && chordOver(z, on, x, sign === 1 ? -1 : 1);
    if (!bridge) {
      addHeight(profile, x, factor, weights);
      return;
    }
    const [a, b] = bridge;
    addHeight(profile, a, (factor * (b - x)) / (b - a), weights);
    addHeight(profile, b, (factor * (x - a)) / (b - a), weights);
  };
  add(from, (sign * (to - at)) / (to - from));
  add(to, (sign * (at - from)) / (to - from));
  add(at, -sign);
  return weights.some((w) => Math.abs(w) > NOTHING) ? weights : undefined;
}

/** Ends of the chord that bridges the mean profile at x; undefined where none does. */
function chordOver(
  z: Float64Array,
  on: Chords,
  x: number,
  sign: 1 | -1,
): readonly [number, number] | undefined {
  let i = 0;
  for (let k = 1; k < on.x.length; k++) {
    if (Math.abs(on.x[k] - x) < Math.abs(on.x[i] - x)) i = k;
  }
  const { from, to } = deepestChord(z, on, i, sign);
  return from === to ? undefined : [on.x[from], on.x[to]];
}

function addHeight(
  { basis, domain: [low, high] }: Profile,
  x: number,
  factor: number,
  weights: Float64Array,
): void {
  const values = new Float64Array(4);
  const first = basis.valuesAt(Math.min(1, Math.max(0, (x - low) / (high - low))), values);
  for (let a = 0; a < 4; a++) weights[first + a] += factor * values[a];
}
