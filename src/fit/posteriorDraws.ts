import { solveBackward } from './arrowSystem.ts';
import { normalSequence } from './normalSequence.ts';
import type { Profile } from './posterior.ts';
import { row } from './row.ts';

/** Spline coefficients drawn from the posterior, in pairs mirrored about their component's mean:
 *  draw 2k + 1 is draw 2k mirrored. Equal weights; pairs `from` up to `to`, so that a sequence can be
 *  carried on. The sequence is fixed: the same readings give the same draws. Each draw carries an
 *  arbitrary straight line. Components are taken in van der Corput's order of levels, so that every
 *  beginning of the sequence has them in proportion. */
export function posteriorDraws(
  profile: Profile,
  from: number,
  to: number,
): readonly Float64Array[] {
  if (!(Number.isInteger(from) && Number.isInteger(to) && from >= 0 && to > from)) {
    throw new RangeError(`pairs from 0 or more upwards expected, got ${from} to ${to}`);
  }
  const { components, basis } = profile;
  const { size } = basis;
  const stride = size + components[0].factor.matrix.extra;
  const normals = normalSequence(to * stride);
  const cumulative: number[] = [];
  components.reduce((sum, { weight }, i) => (cumulative[i] = sum + weight), 0);
  const draws: Float64Array[] = [];
  for (let k = from; k < to; k++) {
    const level = radicalInverse(k + 1);
    let index = 0;
    while (index < components.length - 1 && !(cumulative[index] > level)) index++;
    const { coefficients, factor, noise } = components[index];
    const deviation = row(stride);
    deviation.set(normals.subarray(k * stride, (k + 1) * stride));
    solveBackward(factor, deviation);
    const plus = row(size);
    const minus = row(size);
    for (let j = 0; j < size; j++) {
      plus[j] = coefficients[j] + noise * deviation[j];
      minus[j] = coefficients[j] - noise * deviation[j];
    }
    draws.push(plus, minus);
  }
  return draws;
}

function radicalInverse(k: number): number {
  let inverse = 0;
  for (let digit = 0.5, rest = k; rest > 0; rest >>= 1, digit /= 2) inverse += digit * (rest & 1);
  return inverse;
}
