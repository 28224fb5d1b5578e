import type { PanelPlacement } from '../../../src/fit/surface/panelReadings.ts';

export type Surface = (x: number, y: number) => number;

/** How a straightedge is laid across: its station on the innermost and on the outermost line. */
export type Across = readonly [number, number];

export interface Layout {
  readonly lines: readonly number[];
  readonly stations: readonly number[];
  readonly across: readonly Across[];
}

export const EIGHT: Layout = {
  lines: [100, 200, 300, 400, 500, 600, 700, 800],
  stations: Array.from({ length: 25 }, (_, i) => 62.5 * i),
  across: [
    [0, 0],
    [312.5, 312.5],
    [625, 625],
    [875, 875],
    [1187.5, 1187.5],
    [1500, 1500],
    [187.5, 1062.5],
    [1250, 375],
  ],
};

/** Every station a multiple of 125 mm, so that each diagonal crosses lines where they were read. */
export const FIVE: Layout = {
  lines: [150, 300, 450, 600, 750],
  stations: Array.from({ length: 13 }, (_, i) => 125 * i),
  across: [
    [125, 125],
    [750, 750],
    [1375, 1375],
    [500, 1000],
    [1250, 250],
  ],
};

/** Right across the keel: places to port below 0, a line on the keel itself. */
export const KEEL: Layout = {
  lines: [-600, -400, -200, 0, 200, 400, 600],
  stations: FIVE.stations,
  across: [
    [125, 125],
    [750, 750],
    [1375, 1375],
    [0, 1500],
    [1500, 0],
  ],
};

/** Readings of a surface with u; every placement has an offset and a tilt of its own. */
export function readingsOn(
  surface: Surface,
  { lines, stations, across }: Layout,
  u: number,
  noise: () => number = () => 0,
): PanelPlacement[] {
  const read = (line: readonly number[], x: readonly number[], own: (i: number) => number) => ({
    line,
    x,
    gap: x.map((at, i) => own(i) - surface(at, lines[line[i]]) + u * noise()),
    u: x.map(() => u),
  });
  const last = lines.length - 1;
  return [
    ...lines.map((_, i) =>
      read(
        stations.map(() => i),
        stations,
        (k) => 2 + 0.3 * i - 0.0007 * (i - 2) * stations[k],
      ),
    ),
    ...across.map(([inner, outer], p) =>
      read(
        lines.map((_, i) => i),
        lines.map((y) => inner + ((outer - inner) * (y - lines[0])) / (lines[last] - lines[0])),
        (k) => 4 - p + 0.002 * (p - 1) * lines[k],
      ),
    ),
  ];
}

/** Round hollow (depth below 0) or hump. */
export const round =
  (height: number, at: readonly [number, number], reach: readonly [number, number]): Surface =>
  (x, y) =>
    height * Math.exp(-(((x - at[0]) / reach[0]) ** 2) - ((y - at[1]) / reach[1]) ** 2);

/** x·y: what a straightedge laid fore and aft or athwart lies flat on. */
export const twisted =
  (rate: number): Surface =>
  (x, y) =>
    rate * x * y;

export const sumOf =
  (...surfaces: readonly Surface[]): Surface =>
  (x, y) =>
    surfaces.reduce((sum, surface) => sum + surface(x, y), 0);
