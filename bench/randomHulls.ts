import type { Running } from '../src/running/planing/running.ts';
import { WATERS } from '../src/running/planing/water.ts';

/** Hulls of every size and load that a yard may see, and some that it will not, from a fixed sequence. */
export function randomHulls(count: number): readonly Running[] {
  let state = 20261128;
  // Park and Miller (1988), Communications of the ACM 31, 1192.
  const between = (low: number, high: number) => {
    state = (state * 48271) % 2147483647;
    return low + (state / 2147483647) * (high - low);
  };
  return Array.from({ length: count }, () => ({
    hull: { beam: between(1500, 4000), deadrise: between(0, 28) },
    load: {
      displacement: between(600, 15_000),
      lcg: between(800, 5000),
      vcg: between(200, 1200),
    },
    thrust: { arm: between(-300, 900), angle: between(-5, 12) },
    speed: between(6, 30),
    water: WATERS.sea,
  }));
}
