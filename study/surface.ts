import { parseArgs } from 'node:util';
import { areasOf } from '../src/fit/surface/areas.ts';
import { bestPlane } from '../src/fit/surface/bestPlane.ts';
import { fitPanel, type Panel } from '../src/fit/surface/fitPanel.ts';
import { breadth, panelMap } from '../src/fit/surface/panelMap.ts';
import { twistOf } from '../src/fit/surface/twist.ts';
import { normalsOf } from './noise.ts';
import {
  ACROSS,
  BESIDE_KEEL,
  cornerOf,
  KEEL_LINES,
  KEEL_SHAPES,
  kindOf,
  LEAST_ACROSS,
  LINES,
  largest,
  OVER,
  readings,
  SHAPES,
  STATIONS,
  STRETCH,
  TOLERANCE,
  TWIST,
  type Across,
  type Surface,
} from './surfaces.ts';

const USAGE = `npm run -s study:surface -- [--panels N] [--seed N] [--keel]
  --panels  seeded panels a row, each once with a departure of exactly the tolerance and once with one of 2.4 times that
  --seed    another set of reading errors
  --keel    bottoms that are flat and read right across the keel, instead of panels of one side
`;

const NOISES = [0.1, 0.2];
/** A departure that is large enough to be found on every panel: its depth as told is held against it. */
const FOUND = 2.4;
const QUESTION = { tolerance: TOLERANCE, over: OVER };
const COLUMNS = ['twist', 'map', 'depth', 'proven at T'] as const;
const WIDE = 48;

type Counts = Readonly<Record<(typeof COLUMNS)[number], number>> & { readonly of: number };

const { panels, seed, keel } = read();
const lines = keel ? KEEL_LINES : LINES;
const least = keel ? 'hollow astride the keel' : 'round hollow';
const shapes = keel ? KEEL_SHAPES : SHAPES;
print(
  `T = ${TOLERANCE} mm over ${OVER}; ${lines.length} lines ${keel ? 'of both sides ' : ''}by ${STATIONS.length} stations, 3 placements athwart and 2 on diagonals; ${panels} seeded panels a row, seed ${seed}; every panel is also twisted.`,
);
print(
  `Per cent of panels whose 95 % interval holds the twist, of places whose height it holds, of areas whose depth of ${FOUND} T it holds; and of panels on which an area of exactly T is said to be proven.`,
);
for (const noise of NOISES) {
  print(
    `\n${`readings good to ${noise} T`.padEnd(WIDE)}${COLUMNS.map((name) => name.padStart(13)).join('')}`,
  );
  const rows = Object.entries(shapes).map(([name, shape], s) => {
    const counts = study(shape, noise * TOLERANCE, ACROSS, [seed, s, Math.round(100 * noise)]);
    say(name, counts);
    return counts;
  });
  say('all', together(rows));
  say(
    `${least}, 2 athwart, 1 diagonal`,
    study(shapes[least], noise * TOLERANCE, LEAST_ACROSS, [
      seed,
      rows.length,
      Math.round(100 * noise),
    ]),
  );
  if (!keel) continue;
  const along = 'trough fore and aft along the keel';
  const keys = [seed, rows.length + 1, Math.round(100 * noise)];
  say(`${along}, unread`, study(shapes[along], noise * TOLERANCE, ACROSS, keys, BESIDE_KEEL));
}

function together(rows: readonly Counts[]): Counts {
  return rows.reduce((a, b) => ({
    twist: a.twist + b.twist,
    map: a.map + b.map,
    depth: a.depth + b.depth,
    'proven at T': a['proven at T'] + b['proven at T'],
    of: a.of + b.of,
  }));
}

function say(what: string, counts: Counts): void {
  const percent = (count: number) => ((100 * count) / counts.of).toFixed(1).padStart(13);
  print(`${what.padEnd(WIDE)}${COLUMNS.map((name) => percent(counts[name])).join('')}`);
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** How often intervals hold the truth, and how often a departure of exactly the tolerance is proven to be beyond it. */
function study(
  shape: Surface,
  u: number,
  across: readonly Across[],
  keys: readonly number[],
  on: readonly number[] = lines,
): Counts {
  const unit = TOLERANCE / largest(shape, on);
  const scaled =
    (times: number): Surface =>
    (x, y) =>
      times * unit * shape(x, y) + TWIST(x, y);
  const surface = scaled(1);
  const corner = cornerOf(surface, on);
  const truth = departures(surface, on);
  const kind = kindOf(shape, on);
  const counts = { twist: 0, map: 0, depth: 0, 'proven at T': 0, of: panels };
  for (let run = 0; run < panels; run++) {
    const panel = fitted(surface, u, across, [...keys, run], on);
    const turned = twistOf(panel, STRETCH, QUESTION);
    if (turned && Math.abs(turned.corner - corner) <= 1.96 * turned.cornerU) counts.twist++;
    const map = panelMap(panel, STRETCH, { columns: STATIONS.length, between: 0 });
    const held = truth.filter((z, i) => Math.abs(map.z[i] - z) <= 1.96 * map.u[i]).length;
    counts.map += held / truth.length;
    if (areasOf(panel, STRETCH, QUESTION).areas.some(({ proven }) => proven))
      counts['proven at T']++;
    const larger = areasOf(
      fitted(scaled(FOUND), u, across, [...keys, run, 1], on),
      STRETCH,
      QUESTION,
    );
    const [found] = larger.areas
      .filter((area) => area.kind === kind)
      .sort((a, b) => b.size - a.size);
    // One that is not found tells no depth, and holds nothing.
    if (found && Math.abs(found.size - FOUND * TOLERANCE) <= 1.96 * found.u) counts.depth++;
  }
  return counts;
}

function fitted(
  surface: Surface,
  u: number,
  across: readonly Across[],
  keys: readonly number[],
  on: readonly number[],
): Panel {
  const panel = fitPanel(on, readings(surface, u, across, normalsOf(...keys), on), 10 * TOLERANCE);
  if (!panel.ok) throw new Error(panel.reason);
  return panel;
}

/** Heights off the best plane at every station of every line. */
function departures(surface: Surface, on: readonly number[]): Float64Array {
  const places = Float64Array.from(on);
  const nodes = on.flatMap((y, i) => STATIONS.map((x) => ({ x, y, weight: breadth(places, i) })));
  const flatten = bestPlane(
    nodes.map((n) => n.x),
    nodes.map((n) => n.y),
    nodes.map((n) => n.weight),
    false,
  );
  const z = Float64Array.from(nodes, (n) => surface(n.x, n.y));
  flatten(z);
  return z;
}

function read(): { panels: number; seed: number; keel: boolean } {
  try {
    const { values } = parseArgs({
      options: {
        panels: { type: 'string', default: '100' },
        seed: { type: 'string', default: '20261128' },
        keel: { type: 'boolean', default: false },
      },
    });
    return { panels: whole(values.panels), seed: whole(values.seed), keel: values.keel };
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
