import { backwardBand, forwardBand } from './bandSystem.ts';
import type { Panel } from './fitPanel.ts';
import { penaltyTimes } from './panelSystem.ts';

/** What smoothing would leave out of the mean surface, were it the bottom and read without error: coefficients to be added
 *  to it. A fit of the fit's own heights is (A + P)⁻¹ A c, so that (A + P)⁻¹ P c of it goes; nothing of a plane or a twist
 *  does. Source: Tukey (1977), Exploratory Data Analysis (twicing), from memory. */
export function smoothedAway({ components, system, space }: Panel): Float64Array {
  const { size, extra } = system.matrix;
  const away = new Float64Array(size);
  for (const { weight, coefficients, factor, roughness, athwart, noise } of components) {
    const penalties = { fore: (noise / roughness) ** 2, across: (noise / athwart) ** 2 };
    const own = new Float64Array(size + extra);
    own.set(penaltyTimes(space, coefficients.subarray(0, size), penalties));
    forwardBand(factor, own);
    backwardBand(factor, own);
    for (let j = 0; j < size; j++) away[j] += weight * own[j];
  }
  return away;
}
