import { chords, chordsOn, hollow, hump } from '../src/fit/departures.ts';
import type { AreaKind } from '../src/fit/surface/areaCounts.ts';
import type { PanelPlacement } from '../src/fit/surface/panelReadings.ts';

/** Panels of known shape, and readings of them. Lengths in mm. */

export const TOLERANCE = 1.5;
export const OVER = 1500;
export const LINES = [150, 300, 450, 600, 750];
export const STATIONS = Array.from({ length: 13 }, (_, i) => 125 * i);
export const STRETCH = [0, 1500] as const;
/** Right across the keel of a bottom that is flat there: places to port below 0. */
export const KEEL_LINES = [-600, -400, -200, 0, 200, 400, 600];
/** The same with nothing read on the keel itself, where a gap twice as wide is left. */
export const BESIDE_KEEL = KEEL_LINES.filter((y) => y !== 0);

/** Station on the innermost line and on the outermost; right across the keel, on the outermost to port and to starboard. */
export type Across = readonly [number, number];

/** Three athwart and two diagonals. */
export const ACROSS: readonly Across[] = [
  [125, 125],
  [750, 750],
  [1375, 1375],
  [500, 1000],
  [1250, 250],
];
/** The least that ties a panel and shows its twist. */
export const LEAST_ACROSS: readonly Across[] = [
  [125, 125],
  [1375, 1375],
  [1250, 250],
];

export type Surface = (x: number, y: number) => number;

const bell =
  (at: readonly [number, number], reach: readonly [number, number]): Surface =>
  (x, y) =>
    Math.exp(-(((x - at[0]) / reach[0]) ** 2) - ((y - at[1]) / reach[1]) ** 2);

/** Shapes whose largest departure is scaled to what is asked; each of the sign that its name says. */
export const SHAPES: Readonly<Record<string, Surface>> = {
  'round hollow': (x, y) => -bell([600, 450], [280, 220])(x, y),
  'hollow at the chine, aft': (x, y) => -bell([300, 700], [250, 250])(x, y),
  'trough fore and aft': (_, y) => -Math.exp(-(((y - 450) / 200) ** 2)),
  'trough athwart': (x) => -Math.exp(-(((x - 700) / 300) ** 2)),
  'round hump': bell([800, 400], [300, 250]),
  'two hollows': (x, y) =>
    -bell([400, 350], [220, 200])(x, y) - bell([1100, 600], [220, 200])(x, y),
};
/** The same of a bottom that is read right across the keel. */
export const KEEL_SHAPES: Readonly<Record<string, Surface>> = {
  'hollow astride the keel': (x, y) => -bell([600, 0], [280, 260])(x, y),
  'hollow to port': (x, y) => -bell([700, -400], [280, 230])(x, y),
  'hump at the chine, starboard': bell([800, 500], [300, 250]),
  'trough fore and aft along the keel': (_, y) => -Math.exp(-((y / 260) ** 2)),
};
export const TWIST: Surface = (x, y) => 1.5e-6 * x * y;

export function kindOf(shape: Surface, lines: readonly number[] = LINES): AreaKind {
  return lines.some((y) => STATIONS.some((x) => shape(x, y) > 0)) ? 'hump' : 'hollow';
}

/** The largest departure under a straightedge fore and aft or athwart, on a finer grid than is judged. */
export function largest(surface: Surface, lines: readonly number[] = LINES): number {
  const on = chords(0, 1500, OVER, { count: 300 });
  const across = chordsOn(lines, OVER);
  let most = 0;
  const look = (z: Float64Array, own: typeof on) => {
    most = Math.max(most, ...hollow(z, own), ...hump(z, own));
  };
  // What counts of a shape of one sign is its own kind; the dips beside a hump, or shoulders of a hollow, are less.
  for (const y of lines)
    look(
      Float64Array.from(on.x, (x) => surface(x, y)),
      on,
    );
  for (const x of on.x)
    look(
      Float64Array.from(lines, (y) => surface(x, y)),
      across,
    );
  return most;
}

/** The fourth corner off the plane of the three others, by the least-squares slopes of the outer and inner lines. */
export function cornerOf(surface: Surface, lines: readonly number[] = LINES): number {
  const slope = (y: number) => {
    let sum = 0;
    let squares = 0;
    for (let k = 0; k < 3000; k++) {
      const x = 0.25 + 0.5 * k - 750;
      sum += x * surface(x + 750, y);
      squares += x * x;
    }
    return sum / squares;
  };
  return (slope(lines[lines.length - 1]) - slope(lines[0])) * 1500;
}

export function readings(
  surface: Surface,
  u: number,
  across: readonly Across[],
  normal: () => number,
  lines: readonly number[] = LINES,
): PanelPlacement[] {
  const last = lines.length - 1;
  const lay = (line: readonly number[], x: readonly number[]): PanelPlacement => {
    const [a, b] = [normal(), 1e-3 * normal()];
    const along = (k: number) => a + b * (x[k] + lines[line[k]]);
    return {
      line,
      x,
      gap: x.map((at, k) => along(k) - surface(at, lines[line[k]]) + u * normal()),
      u: x.map(() => u),
    };
  };
  return [
    ...lines.map((_, i) =>
      lay(
        STATIONS.map(() => i),
        STATIONS,
      ),
    ),
    ...across.map(([inner, outer]) =>
      lay(
        lines.map((_, i) => i),
        lines.map((y) => inner + ((outer - inner) * (y - lines[0])) / (lines[last] - lines[0])),
      ),
    ),
  ];
}
