import { dot, heightsAt } from './functionals.ts';
import { posteriorDraws } from './posteriorDraws.ts';
import type { Profile } from './posterior.ts';
import { straightened } from './straightened.ts';

/** One way in which a profile may be out: heights at the places asked for, one standard deviation of it. */
export type Mode = Float64Array;

const PAIRS = 200;
const SWEEPS = 200;

/** The few ways in which a profile's own uncertainty moves most, the largest first: principal components of its
 *  posterior at the places `x`, free of any straight line. `most` of them, or fewer once `share` of the
 *  variance is told. x: within the domain, at least 3 places, evenly spread.
 *  Source: Karhunen and Loève's expansion, by power iteration with deflation. */
export function principalModes(
  profile: Profile,
  x: ArrayLike<number>,
  { most, share }: { readonly most: number; readonly share: number },
): readonly Mode[] {
  const n = x.length;
  if (n < 3) throw new RangeError(`at least 3 places expected, got ${n}`);
  const heights = heightsAt(profile, x);
  const draws = posteriorDraws(profile, 0, PAIRS).map(heights);
  const rows: Float64Array[] = [];
  for (let k = 0; k < draws.length; k += 2) {
    const half = draws[k].map((v, i) => (v - draws[k + 1][i]) / 2);
    rows.push(straightened(half, x));
  }
  const covariance = covarianceOf(rows, n);
  const total = covariance.reduce((sum, line, i) => sum + line[i], 0);
  const modes: Mode[] = [];
  let told = 0;
  while (modes.length < most && told < share * total) {
    const { direction, variance } = largestDirection(covariance);
    if (!(variance > 0)) break;
    modes.push(direction.map((v) => v * Math.sqrt(variance)));
    told += variance;
    covariance.forEach((line, a) => {
      for (let b = 0; b < n; b++) line[b] -= variance * direction[a] * direction[b];
    });
  }
  return modes;
}

function covarianceOf(rows: readonly Float64Array[], n: number): readonly Float64Array[] {
  return Array.from({ length: n }, (_, a) => {
    const line = new Float64Array(n);
    for (const row of rows) {
      const share = row[a] / rows.length;
      for (let b = 0; b < n; b++) line[b] += share * row[b];
    }
    return line;
  });
}

function largestDirection(covariance: readonly Float64Array[]) {
  const n = covariance.length;
  let direction: Float64Array = Float64Array.from({ length: n }, (_, i) => 1 + i / n + (i % 3));
  let variance = 0;
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const size = Math.sqrt(direction.reduce((sum, v) => sum + v * v, 0));
    if (!(size > 0)) return { direction, variance: 0 };
    direction = direction.map((v) => v / size);
    const next = Float64Array.from(covariance, (line) => dot(line, direction));
    variance = Math.sqrt(next.reduce((sum, v) => sum + v * v, 0));
    direction = next;
  }
  const size = Math.sqrt(direction.reduce((sum, v) => sum + v * v, 0));
  return { direction: size > 0 ? direction.map((v) => v / size) : direction, variance };
}
