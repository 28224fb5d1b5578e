import { solveForward } from './arrowSystem.ts';
import { fitProfile, type Profile } from './posterior.ts';
import type { PlacementReadings, ReadingColumns } from './tied.ts';

/** A reading that its neighbours do not bear out. */
export interface Slip {
  readonly placement: number;
  readonly index: number;
  /** The gap that the other readings lead one to expect there, and its standard uncertainty. */
  readonly expected: number;
  readonly u: number;
}

/** Standard uncertainties off its neighbours' straight line from which a reading is looked at closely,
 *  and off what a fit without it expects from which it is pointed out. */
const WORTH_A_LOOK = 6;
const POINTED_OUT = 5;
const MOST_LOOKED_AT = 3;
/** Longer series are logs, whose single readings weigh little. */
const MOST_READINGS = 500;

/** The reading that lies farthest off what all the others lead one to expect, where that is farther than
 *  scatter and roughness allow; undefined where none does. Each suspect is left out and the profile
 *  fitted anew, so that a slip cannot vouch for itself. An outermost station is not looked at: nothing is
 *  extrapolated. Arguments as for `fitProfile`. */
export function slipIn(
  given: readonly ReadingColumns[],
  floor: number,
  stretch = Infinity,
): Slip | undefined {
  const count = given.reduce((sum, p) => sum + p.x.length, 0);
  if (count > MOST_READINGS) return undefined;
  const placements: readonly PlacementReadings[] = given.map(({ x, gap, u }) => ({
    x: Array.from(x),
    gap: Array.from(gap),
    u: Array.from(u),
  }));
  const suspects = placements
    .flatMap((p, placement) =>
      p.x.map((_, index) => ({ placement, index, off: offNeighbours(p, index) / p.u[index] })),
    )
    .filter(({ off }) => off > WORTH_A_LOOK)
    .sort((a, b) => b.off - a.off)
    .slice(0, MOST_LOOKED_AT);
  let worst: (Slip & { off: number }) | undefined;
  for (const { placement, index } of suspects) {
    const rest = placements.map((p, i) => (i === placement ? without(p, index) : p));
    const profile = fitProfile(rest, floor, stretch);
    if (!profile.ok) continue;
    const { x, gap, u } = placements[placement];
    const said = gapExpected(profile, x[index], placement);
    if (said === undefined) continue;
    const off = Math.abs(gap[index] - said.expected) / Math.hypot(u[index], said.u);
    if (off > (worst?.off ?? POINTED_OUT)) {
      worst = { placement, index, ...said, off };
    }
  }
  return (
    worst && {
      placement: worst.placement,
      index: worst.index,
      expected: worst.expected,
      u: worst.u,
    }
  );
}

/** Distance from the straight line between the readings before and after, or from another look. */
function offNeighbours({ x, gap }: PlacementReadings, index: number): number {
  let before = -1;
  let after = -1;
  let off = 0;
  for (let i = 0; i < x.length; i++) {
    if (i === index) continue;
    if (x[i] === x[index]) off = Math.max(off, Math.abs(gap[index] - gap[i]));
    else if (x[i] < x[index] && (before < 0 || x[i] > x[before])) before = i;
    else if (x[i] > x[index] && (after < 0 || x[i] < x[after])) after = i;
  }
  if (before < 0 || after < 0) return off;
  const share = (x[index] - x[before]) / (x[after] - x[before]);
  const between = gap[before] + share * (gap[after] - gap[before]);
  return Math.max(off, Math.abs(gap[index] - between));
}

function without({ x, gap, u }: PlacementReadings, index: number): PlacementReadings {
  const keep = (values: readonly number[]) => values.filter((_, i) => i !== index);
  return { x: keep(x), gap: keep(gap), u: keep(u) };
}

/** Mean and standard uncertainty of the gap that a placement would show at x. */
function gapExpected(
  { basis, domain, components }: Profile,
  x: number,
  placement: number,
): { readonly expected: number; readonly u: number } | undefined {
  const place = (x - domain[0]) / (domain[1] - domain[0]);
  if (!(place >= 0 && place <= 1)) return undefined;
  const values = new Float64Array(4);
  const first = basis.valuesAt(place, values);
  let expected = 0;
  let square = 0;
  for (const { weight, noise, coefficients, factor } of components) {
    if (weight < 1e-6) continue;
    const row = new Float64Array(coefficients.length);
    // A gap is minus the height, plus the placement's own line.
    for (let a = 0; a < 4; a++) row[first + a] = -values[a];
    if (placement > 0) {
      row[basis.size + 2 * (placement - 1)] = 1;
      row[basis.size + 2 * (placement - 1) + 1] = place;
    }
    let mean = 0;
    for (let j = 0; j < row.length; j++) mean += row[j] * coefficients[j];
    solveForward(factor, row);
    let variance = 0;
    for (const value of row) variance += value * value;
    expected += weight * mean;
    square += weight * (mean * mean + noise * noise * variance);
  }
  return { expected, u: Math.sqrt(Math.max(0, square - expected * expected)) };
}
