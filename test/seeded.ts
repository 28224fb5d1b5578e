/** Whole numbers below a limit, the same for the same seed.
 *  Source: a linear congruential generator with the constants of Numerical Recipes (second edition, 7.1); from memory. */
export function seededBelow(seed: number): (limit: number) => number {
  let state = seed >>> 0;
  return (limit) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * limit);
  };
}
