import { normalSequence } from '../normalSequence.ts';
import { chosenAt } from '../readingRows.ts';
import { withSystematic, type SystematicMode } from '../systematic.ts';
import { backwardBand, forwardBand } from './bandSystem.ts';
import type { Panel } from './fitPanel.ts';
import { addReadingRow } from './panelSystem.ts';
import { liesAcross } from './panelReadings.ts';

/** Coefficients drawn from a panel's posterior, in pairs mirrored about their account's mean, from the fixed sequence:
 *  pairs `from` up to `to`. Each draw carries an arbitrary plane, and a twist where that is not known. `systematic`: what
 *  bends the whole surface at once, as `responseOfPanel` finds it. Two panels' draws owe nothing to one another when
 *  their pairs are different ones. */
export function panelDraws(
  { components, system }: Panel,
  from: number,
  to: number,
  systematic: readonly SystematicMode[] = [],
): readonly Float64Array[] {
  const { size, extra } = system.matrix;
  const stride = size + extra;
  const normals = normalSequence(to * stride);
  const draws: Float64Array[] = [];
  for (let k = from; k < to; k++) {
    const { coefficients, factor, noise } = components[chosenAt(components, k)];
    const deviation = normals.slice(k * stride, (k + 1) * stride);
    backwardBand(factor, deviation);
    const plus = new Float64Array(size);
    const minus = new Float64Array(size);
    for (let j = 0; j < size; j++) {
      plus[j] = coefficients[j] + noise * deviation[j];
      minus[j] = coefficients[j] - noise * deviation[j];
    }
    draws.push(plus, minus);
  }
  return withSystematic(draws, systematic, from);
}

/** Posterior mean of the coefficients. */
export function panelMean({ components, system }: Panel): Float64Array {
  const mean = new Float64Array(system.matrix.size);
  for (const { weight, coefficients } of components) {
    for (let j = 0; j < mean.length; j++) mean[j] += weight * coefficients[j];
  }
  return mean;
}

/** How the coefficients shift when `change` is added to the gaps, the weights of the accounts held. */
export function responseOfPanel(
  { components, system, placements, space }: Panel,
  change: (placement: number, index: number) => number,
): Float64Array {
  const { size, extra } = system.matrix;
  const right = new Float64Array(size + extra);
  placements.forEach((placement, p) => {
    const across = liesAcross(placement);
    const { x, line, u } = placement;
    for (let i = 0; i < x.length; i++) {
      const height = -change(p, i) / (u[i] * u[i]);
      if (height === 0) continue;
      addReadingRow(space, { x: x[i], line: line[i] }, { index: p, across }, height, right);
    }
  });
  const shift = new Float64Array(size);
  for (const { weight, factor } of components) {
    const solved = new Float64Array(right);
    forwardBand(factor, solved);
    backwardBand(factor, solved);
    for (let j = 0; j < size; j++) shift[j] += weight * solved[j];
  }
  return shift;
}
