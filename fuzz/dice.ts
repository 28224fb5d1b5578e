import { randomLcg } from 'd3';

/** Chance that is the same each time: one stream a case, from its seed and number, so that any case can be made again
 *  by itself. */
export interface Dice {
  /** A whole number from 0, below `sides`. */
  below(sides: number): number;
  of<T>(list: readonly T[]): T;
  /** True once in so many times. */
  once(times: number): boolean;
}

export function diceOf(seed: number, nth: number): Dice {
  const random = randomLcg(((seed * 1_000_003 + nth * 7919) % 2_147_483_647) / 2_147_483_647);
  // The first numbers of neighbouring seeds are alike.
  for (let i = 0; i < 8; i += 1) random();
  const below = (sides: number): number => Math.floor(random() * sides);
  return {
    below,
    of: (list) => list[below(list.length)],
    once: (times) => below(times) === 0,
  };
}
