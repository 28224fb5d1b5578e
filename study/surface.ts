import { parseArgs } from 'node:util';
import { chords, chordsOn, hollow, hump } from '../src/fit/departures.ts';
import { areasOf } from '../src/fit/surface/areas.ts';
import { bestPlane } from '../src/fit/surface/bestPlane.ts';
import { fitPanel } from '../src/fit/surface/fitPanel.ts';
import { breadth, panelMap } from '../src/fit/surface/panelMap.ts';
import type { PanelPlacement } from '../src/fit/surface/panelReadings.ts';
import { twistOf } from '../src/fit/surface/twist.ts';
import { normalsOf } from './noise.ts';

const USAGE = `npm run -s study:surface -- [--panels N] [--seed N]
  --panels  seeded panels of each shape for the intervals, and again for what is proven at exactly the tolerance
  --seed    another set of reading errors
`;

const TOLERANCE = 1.5;
const OVER = 1500;
const LINES = [150, 300, 450, 600, 750];
const STATIONS = Array.from({ length: 13 }, (_, i) => 125 * i);
const STRETCH = [0, 1500] as const;
const LAST = LINES.length - 1;
/** Station on the innermost line and on the outermost: three athwart and two diagonals. */
const ACROSS = [
  [125, 125],
  [750, 750],
  [1375, 1375],
  [500, 1000],
  [1250, 250],
] as const;
const NOISES = [0.1, 0.2];

type Surface = (x: number, y: number) => number;

const bell =
  (at: readonly [number, number], reach: readonly [number, number]): Surface =>
  (x, y) =>
    Math.exp(-(((x - at[0]) / reach[0]) ** 2) - ((y - at[1]) / reach[1]) ** 2);

/** Shapes whose largest departure is scaled to what is asked; each of the sign that its name says. */
const SHAPES: Readonly<Record<string, Surface>> = {
  'round hollow': (x, y) => -bell([600, 450], [280, 220])(x, y),
  'hollow at the chine, aft': (x, y) => -bell([300, 700], [250, 250])(x, y),
  'trough fore and aft': (_, y) => -Math.exp(-(((y - 450) / 200) ** 2)),
  'trough athwart': (x) => -Math.exp(-(((x - 700) / 300) ** 2)),
  'round hump': bell([800, 400], [300, 250]),
  'two hollows': (x, y) =>
    -bell([400, 350], [220, 200])(x, y) - bell([1100, 600], [220, 200])(x, y),
};
const TWIST: Surface = (x, y) => 1.5e-6 * x * y;

const { panels, seed } = read();
process.stdout.write(
  `T = ${TOLERANCE} mm over ${OVER}; ${LINES.length} lines by ${STATIONS.length} stations, 3 athwart and 2 diagonals; ${panels} seeded panels a row, seed ${seed}; every panel is also twisted\n`,
);
for (const noise of NOISES) {
  const total = { twist: 0, place: 0, wrong: 0, count: 0 };
  Object.entries(SHAPES).forEach(([name, shape], s) => {
    const scale = TOLERANCE / largest(shape);
    const surface: Surface = (x, y) => scale * shape(x, y) + TWIST(x, y);
    const found = study(surface, noise * TOLERANCE, [seed, s, Math.round(100 * noise)]);
    total.twist += found.twist;
    total.place += found.place;
    total.wrong += found.wrong;
    total.count += panels;
    say(`noise ${noise} T, ${name}`, found, panels);
  });
  say(`noise ${noise} T, all`, total, total.count);
}

interface Found {
  readonly twist: number;
  readonly place: number;
  readonly wrong: number;
}

function say(what: string, { twist, place, wrong }: Found, of: number): void {
  const percent = (count: number) => `${((100 * count) / of).toFixed(1)} %`;
  process.stdout.write(
    `${what}: 95 % intervals hold the twist ${percent(twist)}, the map ${percent(place)}; an area of exactly T proven ${percent(wrong)}\n`,
  );
}

/** How often intervals hold the truth, and how often a departure of exactly the tolerance is proven to be beyond it. */
function study(surface: Surface, u: number, keys: readonly number[]): Found {
  const x = STATIONS;
  const nodes = LINES.flatMap((y, i) => x.map((at) => ({ x: at, y, i })));
  const lines = Float64Array.from(LINES);
  const flatten = bestPlane(
    nodes.map((n) => n.x),
    nodes.map((n) => n.y),
    nodes.map((n) => breadth(lines, n.i)),
    false,
  );
  const truth = Float64Array.from(nodes, (n) => surface(n.x, n.y));
  flatten(truth);
  const corner = cornerOf(surface);
  let [twist, place, wrong] = [0, 0, 0];
  for (let run = 0; run < panels; run++) {
    const panel = fitPanel(LINES, readings(surface, u, normalsOf(...keys, run)), 10 * TOLERANCE);
    if (!panel.ok) throw new Error(panel.reason);
    const question = { tolerance: TOLERANCE, over: OVER };
    const turned = twistOf(panel, STRETCH, question);
    if (turned && Math.abs(turned.corner - corner) <= 1.96 * turned.cornerU) twist++;
    const map = panelMap(panel, STRETCH, { columns: x.length, between: 0 });
    const held = truth.filter((z, i) => Math.abs(map.z[i] - z) <= 1.96 * map.u[i]).length;
    place += held / truth.length;
    if (areasOf(panel, STRETCH, question).areas.some(({ proven }) => proven)) wrong++;
  }
  return { twist, place, wrong };
}

/** The largest departure under a straightedge fore and aft or athwart, on a finer grid than is judged. */
function largest(surface: Surface): number {
  const on = chords(0, 1500, OVER, { count: 300 });
  const across = chordsOn(LINES, OVER);
  let most = 0;
  const look = (z: Float64Array, own: typeof on) => {
    most = Math.max(most, ...hollow(z, own), ...hump(z, own));
  };
  // What counts of a shape of one sign is its own kind; the dips beside a hump, or shoulders of a hollow, are less.
  for (const y of LINES)
    look(
      Float64Array.from(on.x, (x) => surface(x, y)),
      on,
    );
  for (const x of on.x)
    look(
      Float64Array.from(LINES, (y) => surface(x, y)),
      across,
    );
  return most;
}

/** The fourth corner off the plane of the three others, by the least-squares slopes of the outer and inner lines. */
function cornerOf(surface: Surface): number {
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
  return (slope(LINES[LAST]) - slope(LINES[0])) * 1500;
}

function readings(surface: Surface, u: number, normal: () => number): PanelPlacement[] {
  const lay = (line: readonly number[], x: readonly number[]): PanelPlacement => {
    const [a, b] = [normal(), 1e-3 * normal()];
    const along = (k: number) => a + b * (x[k] + LINES[line[k]]);
    return {
      line,
      x,
      gap: x.map((at, k) => along(k) - surface(at, LINES[line[k]]) + u * normal()),
      u: x.map(() => u),
    };
  };
  return [
    ...LINES.map((_, i) =>
      lay(
        STATIONS.map(() => i),
        STATIONS,
      ),
    ),
    ...ACROSS.map(([inner, outer]) =>
      lay(
        LINES.map((_, i) => i),
        LINES.map((y) => inner + ((outer - inner) * (y - LINES[0])) / (LINES[LAST] - LINES[0])),
      ),
    ),
  ];
}

function read(): { panels: number; seed: number } {
  try {
    const { values } = parseArgs({
      options: {
        panels: { type: 'string', default: '100' },
        seed: { type: 'string', default: '20261128' },
      },
    });
    return { panels: whole(values.panels), seed: whole(values.seed) };
  } catch (error) {
    if (!(error instanceof RangeError || error instanceof TypeError)) throw error;
    process.stderr.write(`${error.message}\n${USAGE}`);
    process.exit(2);
  }
}

function whole(text: string): number {
  if (!/^[1-9]\d{0,8}$/.test(text)) throw new RangeError(`a whole number expected, got ${text}`);
  return Number(text);
}
