import type { SurfaceGrid } from '../../src/survey/panels/surfaceFrom.ts';
import { rounded } from './drawingSize.ts';
import type { Box } from './hatch.ts';
import type { Ring } from './surfaceContours.ts';

/** What is marked on the map of a surface besides its contours. */

/** From a place, station first, to where it is drawn. */
export type Drawn = (place: readonly [number, number]) => readonly [number, number];

export function middleOf(values: ArrayLike<number>): number {
  return Array.from(values).sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

/** The highest and the lowest of what was read. */
export function extremesOf({ x, y, z, u, blank }: SurfaceGrid) {
  let high = -1;
  let low = -1;
  for (let i = 0; i < z.length; i++) {
    if (blank[i] === 1) continue;
    if (high < 0 || z[i] > z[high]) high = i;
    if (low < 0 || z[i] < z[low]) low = i;
  }
  if (high < 0) return { size: 0, found: [] };
  const at = (i: number) => ({
    x: x[i % x.length],
    y: y[Math.floor(i / x.length)],
    z: z[i],
    u: u[i],
  });
  return {
    size: Math.max(Math.abs(z[high]), Math.abs(z[low])),
    found: [
      ...(z[high] > 0 ? [{ kind: 'proud' as const, ...at(high) }] : []),
      ...(z[low] < 0 ? [{ kind: 'hollow' as const, ...at(low) }] : []),
    ],
  };
}

/** At the place of a contour that lies farthest inside the panel. */
export function labelOf(
  rings: readonly Ring[],
  { x, y }: SurfaceGrid,
  point: Drawn,
  text: string,
): { readonly x: number; readonly y: number; readonly text: string } | undefined {
  const depth = ([px, py]: readonly [number, number]) =>
    Math.min(
      (px - x[0]) / (x[x.length - 1] - x[0]),
      (x[x.length - 1] - px) / (x[x.length - 1] - x[0]),
      (py - y[0]) / (y[y.length - 1] - y[0]),
      (y[y.length - 1] - py) / (y[y.length - 1] - y[0]),
    );
  let best: readonly [number, number] | undefined;
  for (const place of rings.flat()) {
    if (best === undefined || depth(place) > depth(best)) best = place;
  }
  if (best === undefined || depth(best) < 0.08) return undefined;
  const [at, height] = point(best);
  return { x: at, y: height, text };
}

/** Stretches of a row of which nothing is known, as wide as the row stands for. */
export function blanksOf({ x, y, blank }: SurfaceGrid, point: Drawn): readonly Box[] {
  const boxes: Box[] = [];
  const n = x.length;
  for (let r = 0; r < y.length; r++) {
    const inner = r === 0 ? y[0] : (y[r - 1] + y[r]) / 2;
    const outer = r === y.length - 1 ? y[r] : (y[r] + y[r + 1]) / 2;
    for (let c = 0; c < n; c++) {
      if (blank[r * n + c] !== 1) continue;
      const first = c;
      while (c + 1 < n && blank[r * n + c + 1] === 1) c++;
      const [x1, y1] = point([x[first], inner]);
      const [x2, y2] = point([x[c], outer]);
      boxes.push({
        x: Math.min(x1, x2),
        y: Math.min(y1, y2),
        width: rounded(Math.abs(x2 - x1)),
        height: rounded(Math.abs(y2 - y1)),
      });
    }
  }
  return boxes;
}
