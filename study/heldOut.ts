import type { Family, Shape } from './families.ts';
import { normalsOf } from './noise.ts';

const SEED = 20261128;

/** Shapes beside the study's own, drawn at random from a printed seed, to see whether what holds of the study's
 *  own shapes holds of others. Like those, every one is told apart from its neighbours by a quarter of the line. */
export const HELD_OUT: readonly Family[] = [
  ...Array.from({ length: 8 }, (_, k) => ({ name: `smooth, drawn ${k + 1}`, shape: smooth(k) })),
  ...Array.from({ length: 8 }, (_, k) => ({
    name: `cornered, drawn ${k + 1}`,
    shape: cornered(k),
  })),
  ...Array.from({ length: 4 }, (_, k) => {
    const [even, broken] = [smooth(100 + k), cornered(100 + k)];
    return {
      name: `smooth and cornered, drawn ${k + 1}`,
      shape: (s: number) => even(s) + broken(s),
    };
  }),
];

/** Half waves of the line, of a half of it, a third and a quarter, of random height that falls with their square. */
function smooth(k: number): Shape {
  const normal = normalsOf(SEED, 1, k);
  const heights = [1, 2, 3, 4].map((waves) => normal() / waves ** 2);
  return (s) => heights.reduce((z, height, i) => z + height * Math.cos((i + 1) * Math.PI * s), 0);
}

/** Straight parts at least a quarter of the line long, between corners of random height. */
function cornered(k: number): Shape {
  const normal = normalsOf(SEED, 2, k);
  const parts = k % 2 === 0 ? 2 : 3;
  const lengths = Array.from({ length: parts }, () => Math.abs(normal()));
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const corners = [0];
  for (const length of lengths) {
    corners.push(corners[corners.length - 1] + 1 / 4 + (1 - parts / 4) * (length / total));
  }
  const heights = corners.map(() => normal());
  return (s) => {
    const part = Math.max(
      0,
      corners.findLastIndex((at, i) => at <= s && i < parts),
    );
    const share = (s - corners[part]) / (corners[part + 1] - corners[part]);
    return heights[part] + share * (heights[part + 1] - heights[part]);
  };
}
