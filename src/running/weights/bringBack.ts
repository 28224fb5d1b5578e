import type { Figure, LoadFigures, NoLoad } from './loads.ts';

/** A mass that brings the centre of gravity back, and what that costs. */
export interface MassThere {
  readonly ok: true;
  /** To carry aboard there, or to take off from there. */
  readonly act: 'carry' | 'take off';
  /** kg */
  readonly mass: Figure;
  /** What the boat then weighs, kg. */
  readonly displacement: number;
}

/** What mass at x (mm forward of the transom's bottom edge) brings LCG to `target`: w = W (target − LCG) / (x − target).
 *  Uncertainty first-order, from displacement and LCG as they stand. Refuses a place at the target, where mass moves
 *  nothing, and more than the boat weighs.
 *  Source: LCG after adding, (W·LCG + w·x) / (W + w), as in handbooks of ship stability. */
export function massThatBringsBack(
  load: LoadFigures,
  target: number,
  x: number,
): MassThere | NoLoad {
  checkPlaces(target, x);
  const { displacement, lcg, covariance } = load;
  const arm = x - target;
  if (arm === 0) return { ok: false, reason: 'a mass at the target itself moves nothing' };
  const wanted = target - lcg.value;
  const mass = (displacement.value * wanted) / arm;
  if (Math.abs(mass) >= displacement.value) {
    return { ok: false, reason: 'too near the target: it would take as much as the boat weighs' };
  }
  const byW = wanted / arm;
  const byLcg = -displacement.value / arm;
  const variance =
    (byW * displacement.u) ** 2 + (byLcg * lcg.u) ** 2 + 2 * byW * byLcg * covariance;
  return {
    ok: true,
    act: mass < 0 ? 'take off' : 'carry',
    mass: { value: Math.abs(mass), u: Math.sqrt(Math.max(0, variance)) },
    displacement: displacement.value + mass,
  };
}

/** How far a thing that is aboard must go; the boat weighs the same. */
export interface MoveOf {
  readonly ok: true;
  /** mm, positive forward. */
  readonly by: Figure;
  /** Where it then stands, mm forward of the transom's bottom edge. */
  readonly to: number;
}

/** How far an item of `mass` kg at x must move to bring LCG to `target`: W (target − LCG) / mass. Refuses a place
 *  forward of `foremost` or aft of `aftmost` (mm). Uncertainty as above.
 *  Source: GG₁ = w·d/W, as in Derrett and Barrass, Ship Stability for Masters and Mates. */
export function moveThatBringsBack(
  load: LoadFigures,
  target: number,
  item: { readonly mass: number; readonly x: number },
  within: { readonly aftmost: number; readonly foremost: number },
): MoveOf | NoLoad {
  checkPlaces(target, item.x);
  if (!(item.mass > 0 && item.mass < Infinity)) {
    throw new RangeError(`a mass above 0 expected, got ${item.mass}`);
  }
  const { displacement, lcg, covariance } = load;
  if (item.mass >= displacement.value) {
    return { ok: false, reason: 'the item would weigh as much as the boat' };
  }
  const wanted = target - lcg.value;
  const by = (displacement.value * wanted) / item.mass;
  const to = item.x + by;
  if (to > within.foremost) return { ok: false, reason: 'it would have to stand beyond the bow' };
  if (to < within.aftmost) return { ok: false, reason: 'it would have to stand too far aft' };
  const variance =
    (wanted * displacement.u) ** 2 +
    (displacement.value * lcg.u) ** 2 -
    2 * wanted * displacement.value * covariance;
  return { ok: true, by: { value: by, u: Math.sqrt(Math.max(0, variance)) / item.mass }, to };
}

function checkPlaces(...places: readonly number[]): void {
  for (const place of places) {
    if (!Number.isFinite(place)) throw new RangeError(`a place in mm expected, got ${place}`);
  }
}
