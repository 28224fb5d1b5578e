import { solveBackward, solveForward } from './arrowSystem.ts';
import type { Profile } from './posterior.ts';
import type { ReadingColumns } from './tied.ts';

/** How a profile's coefficients shift when its readings change: `change` is what is added to the gap of
 *  reading `index` of placement `placement`, in the gaps' unit. The fit is linear in the readings at every
 *  roughness; the weights of the roughnesses are held. Placements as they were given to `fitProfile`.
 *  Up to a straight line, like the profile itself. */
export function responseTo(
  { basis, domain, components }: Profile,
  placements: readonly ReadingColumns[],
  change: (placement: number, index: number) => number,
): Float64Array {
  const right = new Float64Array(basis.size + 2 * (placements.length - 1));
  const values = new Float64Array(4);
  const span = domain[1] - domain[0];
  placements.forEach(({ x, u }, p) => {
    for (let i = 0; i < x.length; i++) {
      const height = -change(p, i) / (u[i] * u[i]);
      if (height === 0) continue;
      const place = Math.min(1, Math.max(0, (x[i] - domain[0]) / span));
      const first = basis.valuesAt(place, values);
      for (let a = 0; a < 4; a++) right[first + a] += height * values[a];
      if (p === 0) continue;
      right[basis.size + 2 * (p - 1)] -= height;
      right[basis.size + 2 * (p - 1) + 1] -= height * place;
    }
  });
  const shift = new Float64Array(basis.size);
  for (const { weight, factor } of components) {
    const solved = new Float64Array(right);
    solveForward(factor, solved);
    solveBackward(factor, solved);
    for (let j = 0; j < shift.length; j++) shift[j] += weight * solved[j];
  }
  return shift;
}
