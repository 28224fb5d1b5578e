/** Places at which a log's readings are taken together: closer than what is sought for a verdict's chances. */
const PLACES = 48;

/** What many readings tell, at so few places that it can be worked with one by one: each place has the mean of the
 *  readings about it, as sure as they are together. `u`: of each reading; within `from` to `to`. Places without a reading
 *  are none. */
export function gathered(
  { x }: { readonly x: ArrayLike<number> },
  u: ArrayLike<number>,
  [from, to]: readonly [number, number],
): { readonly x: readonly number[]; readonly u: readonly number[] } {
  const weights = new Float64Array(PLACES);
  const moments = new Float64Array(PLACES);
  for (let i = 0; i < x.length; i++) {
    if (x[i] < from || x[i] > to) continue;
    const place = Math.min(PLACES - 1, Math.floor((PLACES * (x[i] - from)) / (to - from)));
    const weight = 1 / (u[i] * u[i]);
    weights[place] += weight;
    moments[place] += weight * x[i];
  }
  const read = Array.from(weights.keys()).filter((place) => weights[place] > 0);
  return {
    x: read.map((place) => moments[place] / weights[place]),
    u: read.map((place) => 1 / Math.sqrt(weights[place])),
  };
}
