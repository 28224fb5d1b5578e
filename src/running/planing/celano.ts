/** The trim above which a hull porpoises, degrees: 0.1197 β^0.7651 exp(15.7132 √(CL/2) β^−0.2629), β in degrees.
 *  Undefined outside the range in which it has been held against figure 18: deadrise 10° to 25°, √(CL/2) 0.13 to 0.30;
 *  at no deadrise the form gives 0.
 *  Source: Celano (1998), The Prediction of Porpoising Inception for Modern Planing Craft, Trident Scholar Report 254,
 *  U.S. Naval Academy; the coefficients are from memory and not verified. */
export function celano(deadrise: number, loading: number): number | undefined {
  if (!(deadrise >= 10 && deadrise <= 25 && loading >= 0.13 && loading <= 0.3)) return undefined;
  return 0.1197 * deadrise ** 0.7651 * Math.exp(15.7132 * loading * deadrise ** -0.2629);
}
