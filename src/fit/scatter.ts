import type { Profile } from './posterior.ts';

/** Probability, by the posterior, that readings scatter more than stated: the weight of the accounts in
 *  which their uncertainty is the larger of the values averaged over. */
export function scatterBeyondStated({ components }: Profile): number {
  return components.reduce((sum, { noise, weight }) => (noise > 1 ? sum + weight : sum), 0);
}
