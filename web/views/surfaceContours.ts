import { contours } from 'd3';
import type { SurfaceGrid } from '../../src/survey/panels/surfaceFrom.ts';

/** Closed, each place as station and place athwart. */
export type Ring = readonly (readonly [number, number])[];

/** Rings round everything that is at or above a level; a ring within a ring is a hole. Rows of a grid need not be evenly
 *  spaced. `value`: what is drawn, by place in the grid. */
export function gridContours(
  { x, y, z }: Pick<SurfaceGrid, 'x' | 'y' | 'z'>,
  value: (i: number) => number,
  level: number,
): readonly Ring[] {
  const values = Array.from({ length: z.length }, (_, i) => value(i));
  const { coordinates } = contours().size([x.length, y.length]).contour(values, level);
  return coordinates.flatMap((polygon) =>
    polygon.map((ring) =>
      ring.map(([column, row]) => [placeAt(x, column), placeAt(y, row)] as const),
    ),
  );
}

/** d3 has the first place at a half, and closes rings half a cell outside the grid. */
function placeAt(places: ArrayLike<number>, at: number): number {
  const t = Math.min(Math.max(at - 0.5, 0), places.length - 1);
  const i = Math.min(Math.floor(t), places.length - 2);
  return places[i] + (places[i + 1] - places[i]) * (t - i);
}
