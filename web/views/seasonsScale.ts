import type { ProfilePoint } from '../../src/fit/judge.ts';
import { rounded, textSize, type DrawingSize } from './drawingSize.ts';

/** One scale for every line of every survey of a hull. */
export interface SeasonsScale {
  /** Stretch of the hull, mm forward of the transom. */
  readonly from: number;
  readonly to: number;
  /** mm of height from the middle of a picture to its edge: the same in all. */
  readonly half: number;
}

/** Room around the plot, in heights of text; the dates stand to the right, beyond the bow. */
export const SEASONS_ROOM = { left: 3.2, right: 8.4, top: 3.9, bottom: 4.4 } as const;

/** `pictures`: the profiles of each picture, laid on one another. */
export function seasonsScale(
  pictures: readonly (readonly (readonly ProfilePoint[])[])[],
  tolerance: number,
): SeasonsScale {
  const points = pictures.flat(2);
  const farthest = points.reduce((most, { x }) => Math.max(most, x), 100);
  const half = pictures.reduce((most, profiles) => {
    const [low, high] = spanOf(profiles.flat());
    return Math.max(most, (high - low) / 2);
  }, tolerance);
  return { from: -0.02 * farthest, to: 1.01 * farthest, half: 1.12 * half };
}

/** Hollowest and proudest of some points; about nought where there are none. */
export function spanOf(points: readonly ProfilePoint[]): readonly [low: number, high: number] {
  return points.reduce<readonly [number, number]>(
    ([low, high], { z }) => [Math.min(low, z), Math.max(high, z)],
    [0, 0],
  );
}

/** The plot inside a picture of a size. */
export function seasonsPlot(size: DrawingSize) {
  const em = textSize(size);
  const { left, right, top, bottom } = SEASONS_ROOM;
  return {
    em,
    x: rounded(left * em),
    y: rounded(top * em),
    width: rounded(size.width - (left + right) * em),
    height: rounded(size.height - (top + bottom) * em),
  };
}
