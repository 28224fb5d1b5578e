import { cornerDoubt } from './cornerDoubt.ts';
import { countedWeights, type CountedOn } from './countedWeights.ts';
import { dot } from './functionals.ts';
import type { Deepest } from './judge.ts';
import { meanCoefficients, type Profile } from './posterior.ts';

/** What the draws do not know of a departure's size: what is to be added to it, and to its variance. */
export interface Doubt {
  readonly shift: number;
  readonly variance: number;
}

/** The size of a departure as it is told, centred and widened by what the draws do not know of it, and that
 *  doubt by itself (`borneOut` decides by both).
 *  - The deepest of all chords seeks out scatter: it stands deeper in the mean of the draws than in the mean
 *    profile. Whether the mean profile's own chord was sought out as well, the readings do not say (of a flat
 *    bottom beside a dent it was, of an even curve not): the middle of the two is told, and half their difference joins
 *    the uncertainty.
 *  - Where it is measured, and at both ends of its chord, the bottom may have a corner that a smooth profile rounds
 *    off (`cornerDoubt`).
 *  Mirroring a profile mirrors both to the last bit. */
export function sizeTold(
  profile: Profile,
  found: Deepest,
  of: 'hollow' | 'hump',
  countedOn: CountedOn,
): { readonly told: Deepest; readonly doubt: Doubt } {
  const { at, from, to } = found;
  const weights = countedWeights(profile, found, of, countedOn);
  const ofMean = weights ? dot(weights, meanCoefficients(profile)) : 0;
  const stretch = countedOn.judged[1] - countedOn.judged[0];
  const corner = weights
    ? cornerDoubt(profile, weights, [at, from, to], stretch)
    : { shift: 0, variance: 0 };
  return asTold(found, ofMean, corner);
}

/** `sizeTold` of what was found in the draws and of the same chord in the mean profile; `corner`: what a corner near it would
 *  do. */
export function asTold(
  found: Deepest,
  ofMean: number,
  corner: Doubt,
): { readonly told: Deepest; readonly doubt: Doubt } {
  const { size, u } = found;
  const half = (size - ofMean) / 2;
  const doubt = { shift: corner.shift - half, variance: half * half + corner.variance };
  const told = {
    ...found,
    size: Math.max(0, size + doubt.shift),
    u: Math.sqrt(u * u + doubt.variance),
  };
  return { told, doubt };
}
