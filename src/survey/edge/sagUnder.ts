import type { EdgeSag } from '../survey.ts';
import { beamSag, G, MATERIAL, secondMoment, stringSag } from './sag.ts';

/** How an edge is carried: its length, and where from its aft end it is held up, mm. */
export interface Carried {
  readonly length: number;
  readonly at: readonly [number, number];
}

/** How far an edge sags at a distance from its aft end, mm, down positive, against the line through where it is held;
 *  undefined where the supports do not stand under it. A string is held at its ends. */
export function sagUnder(
  sag: EdgeSag,
  { length, at }: Carried,
): ((u: number) => number) | undefined {
  if (sag.from === 'tension') {
    return stringSag(at, (sag.weight * G) / 1000 / sag.tension);
  }
  if (!(at[0] >= -1e-6 && at[1] <= length + 1e-6)) return undefined;
  const on = [Math.max(0, at[0]), Math.min(length, at[1])] as const;
  return beamSag(length, on, loadOf(sag));
}

/** w/(E·I), 1/mm³. */
function loadOf(sag: Exclude<EdgeSag, { from: 'tension' }>): number {
  switch (sag.from) {
    case 'section': {
      const { width, depth, wall, material } = sag;
      const { modulus, density } = MATERIAL[material];
      const hollow =
        wall === undefined || 2 * wall >= Math.min(width, depth)
          ? 0
          : (width - 2 * wall) * (depth - 2 * wall);
      const weight = (width * depth - hollow) * density * G * 1e-9;
      return weight / (modulus * secondMoment(width, depth, wall));
    }
    case 'stiffness':
      // kg/m · m/s² = N/m = N/mm / 1000; N·m² = N·mm² · 10⁶.
      return (sag.weight * G) / 1000 / (sag.stiffness * 1e6);
    case 'measured':
      // 5 w L⁴/(384 E I), held at its ends.
      return (384 * sag.sag) / (5 * sag.between ** 4);
  }
}
