import { dot } from '../functionals.ts';
import type { SystematicMode } from '../systematic.ts';
import { forwardBand } from './bandSystem.ts';
import type { Panel } from './fitPanel.ts';

/** A figure that is linear in a panel's unknowns, under each component of its posterior: the component's weight, the figure's
 *  mean and its variance, what is systematic included. */
export function linearFigure(
  { system, components }: Panel,
  weights: Float64Array,
  systematic: readonly SystematicMode[],
): readonly { readonly weight: number; readonly centre: number; readonly variance: number }[] {
  const bare = weights.subarray(0, system.matrix.size);
  const unknown = systematic.reduce((sum, { shape }) => sum + dot(bare, shape) ** 2, 0);
  return components.map(({ weight, coefficients, factor, noise }) => {
    const half = new Float64Array(weights);
    forwardBand(factor, half);
    const variance = noise * noise * dot(half, half) + unknown;
    return { weight, centre: dot(weights, coefficients), variance };
  });
}
