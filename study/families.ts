/** A shape of the bottom: height, towards the water, at s from 0 (transom) to 1 (fore end of the line).
 *  Its size means nothing: it is scaled before use. */
export type Shape = (s: number) => number;

export interface Family {
  readonly name: string;
  readonly shape: Shape;
}

/** A hollow with rounded ends and no shoulder, from `start` to `start + width`. */
const rounded =
  (start: number, width: number): Shape =>
  (s) =>
    s <= start || s >= start + width ? 0 : (Math.cos((2 * Math.PI * (s - start)) / width) - 1) / 2;

/** Straight but for a tail that turns off it at `length` from the transom. */
const wedge =
  (length: number): Shape =>
  (s) =>
    Math.max(0, 1 - s / length);

/** Two straight parts that meet at `at`. */
const corner =
  (at: number): Shape =>
  (s) =>
    -Math.min(s / at, (1 - s) / (1 - at));

/** A floor from `b` to `c` with straight ramps from `a` and to `d`. */
const trough =
  (a: number, b: number, c: number, d: number): Shape =>
  (s) =>
    -Math.max(0, Math.min(1, (s - a) / (b - a), (d - s) / (d - c)));

/** Ahead of `from` the bottom turns away by design, as a parabola. */
const turned =
  (from: number): Shape =>
  (s) =>
    -(Math.max(0, s - from) ** 2);

const sum =
  (...parts: readonly (readonly [size: number, shape: Shape])[]): Shape =>
  (s) =>
    parts.reduce((z, [size, shape]) => z + size * shape(s), 0);

/** The shapes of the study, each used with both signs. Every one is told apart from its neighbours by lengths
 *  of a quarter of the line or more: 375 of 1500 mm, which is three stations 125 mm apart. Chosen before
 *  the first run, and not to be chosen by how they fare. */
export const FAMILIES: readonly Family[] = [
  { name: 'parabola', shape: (s) => 4 * s * (s - 1) },
  { name: 'cubic', shape: (s) => (1 - s) ** 3 },
  { name: 'S of a cubic', shape: (s) => s * (s - 0.5) * (s - 1) },
  { name: 'S of two levels', shape: (s) => Math.tanh((s - 0.45) / 0.12) },
  { name: 'one wave', shape: (s) => Math.sin(2 * Math.PI * s) },
  { name: 'one and a half waves', shape: (s) => Math.sin(3 * Math.PI * s) },
  { name: 'rounded hollow, 1/4 of the line, at the transom', shape: rounded(0, 0.25) },
  { name: 'rounded hollow, 1/4, mid-line', shape: rounded(0.4, 0.25) },
  { name: 'rounded hollow, 1/3, aft', shape: rounded(0.12, 1 / 3) },
  { name: 'rounded hollow, 1/3, fore', shape: rounded(0.6, 1 / 3) },
  { name: 'rounded hollow, 1/2, at the transom', shape: rounded(0, 0.5) },
  { name: 'rounded hollow, 1/2, mid-line', shape: rounded(0.27, 0.5) },
  { name: 'rounded hollow, 3/4', shape: rounded(0.1, 0.75) },
  { name: 'rounded hollow, whole line', shape: rounded(0, 1) },
  {
    name: 'eased tail, 0.4 of the line',
    shape: (s) => (s < 0.4 ? 1 + Math.cos((Math.PI * s) / 0.4) : 0),
  },
  { name: 'wedge tail, 1/4', shape: wedge(0.25) },
  { name: 'wedge tail, 1/3', shape: wedge(1 / 3) },
  { name: 'wedge tail, 1/2', shape: wedge(0.5) },
  { name: 'corner mid-line', shape: corner(0.5) },
  { name: 'corner at 0.35', shape: corner(0.35) },
  { name: 'exponential tail, 1/5', shape: (s) => Math.exp(-s / 0.2) },
  { name: 'exponential tail, 1/8', shape: (s) => Math.exp(-s / 0.125) },
  { name: 'trough, ramps 1/4', shape: trough(0.1, 0.35, 0.6, 0.85) },
  {
    name: 'trough, ramps 1/3, no floor',
    shape: trough(0.2, 0.2 + 1 / 3, 0.2 + 1 / 3, 0.2 + 2 / 3),
  },
  { name: 'triangle, 1/2 of the line', shape: trough(0.22, 0.47, 0.47, 0.72) },
  { name: 'trough to the fore end', shape: trough(0.3, 0.6, 2, 3) },
  {
    name: 'parabola with a small wave',
    shape: sum([1, (s) => 4 * s * (s - 1)], [0.1, (s) => Math.sin(6 * Math.PI * s)]),
  },
  {
    name: 'hollow beside a hump',
    shape: sum([1, rounded(0.08, 0.38)], [-1, rounded(0.5, 0.42)]),
  },
  {
    name: 'deep hollow beside a low hump',
    shape: sum([1, rounded(0.05, 0.45)], [-0.6, rounded(0.55, 0.35)]),
  },
  { name: 'straight, design curve ahead', shape: turned(0.55) },
  {
    name: 'hollow tail and design curve ahead',
    shape: sum([1, rounded(0.05, 0.4)], [4, turned(0.6)]),
  },
];
