import Papa from 'papaparse';
import { median } from 'simple-statistics';
import { compareWays } from '../src/fairing/plan/compareWays.ts';
import { workPlan } from '../src/fairing/plan/workPlan.ts';
import { fitProfile } from '../src/fit/posterior.ts';
import { areasOf } from '../src/fit/surface/areas.ts';
import { fitPanel } from '../src/fit/surface/fitPanel.ts';
import { panelMap } from '../src/fit/surface/panelMap.ts';
import { assess } from '../src/survey/assess.ts';
import { equilibrium } from '../src/running/planing/equilibrium.ts';
import { readLog } from '../src/survey/log/readLog.ts';
import { surfaceView } from '../web/views/surfaceView.ts';
import { handPanel } from './handPanel.ts';
import { handSurvey } from './handSurvey.ts';
import { madeLog } from './madeLog.ts';
import { randomHulls } from './randomHulls.ts';
import { references } from './references.ts';

/** Measures and prints; asserts nothing. Medians, with the least and the most, after runs to warm up; what is compared
 *  is run in turn, so that a busy machine is busy for both. */
const SMALL = { warm: 5, runs: 15 };
const LARGE = { warm: 1, runs: 5 };

type Times = readonly number[];

/** Runs each in turn, and the whole round as often as asked. */
function inTurn(
  { warm, runs }: { readonly warm: number; readonly runs: number },
  ...what: readonly (() => unknown)[]
): readonly Times[] {
  const times = what.map((): number[] => []);
  for (let round = -warm; round < runs; round += 1) {
    what.forEach((run, i) => {
      const start = performance.now();
      run();
      if (round >= 0) times[i].push(performance.now() - start);
    });
  }
  return times;
}

function say(what: string, times: Times): void {
  const [least, most] = [Math.min(...times), Math.max(...times)];
  const digits = most < 100 ? 1 : 0;
  const [m, l, h] = [median([...times]), least, most].map((ms) => ms.toFixed(digits));
  print(`${what}: median ${m} ms (${l} to ${h})`);
}

function ratio(what: string, of: number, to: number, aim: string): void {
  print(`  ${what}: ${Number((of / to).toPrecision(2))} (aim: ${aim})`);
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}

function judged(bytes: Uint8Array): void {
  const read = readLog(bytes);
  if (read?.ok !== true) throw new Error('the log made for the bench could not be read');
  assess(read.survey);
}

print('A survey of 12 lines by 25 stations, decided');
const twelve = handSurvey(12, 25);
const [spanning, shorter, single] = inTurn(
  SMALL,
  () => assess(twelve, { over: 1500 }),
  () => assess(twelve, { over: 900 }),
  () => assess(handSurvey(1, 12)),
);
say('tolerance length as long as the lines', spanning);
say('tolerance length 900 of 1500 mm', shorter);
say('1 line by 12 stations', single);

print('\nThe work on 12 lines by 25 stations');
const assessed = assess(twelve, { over: 1500 });
const also = twelve.lines.map(({ id }) => id);
const [ways, plan] = inTurn(
  SMALL,
  () => compareWays(assessed, { unit: 'mm', grindLimit: 9, also }),
  () => workPlan(assessed, { unit: 'mm', way: 'fill only', also }),
);
say('figures of all three ways (aim: under 50 ms)', ways);
say('a whole plan, filled, with each line judged as it will be', plan);

print('\nA panel of 8 lines by 25 stations, 6 placements athwart and 2 on diagonals');
const { lines: panelLines, placements } = handPanel(8, 25, 6);
const solved = fitPanel(panelLines, placements, 15);
if (!solved.ok)
  throw new Error(`the panel made for the bench could not be fitted: ${solved.reason}`);
const grid = panelMap(solved, [0, 1500]);
const drawnPanel = {
  side: 'port',
  lines: panelLines.map((offset) => ({ name: `P${offset}`, place: offset })),
  words: { word: 'Undecided', where: 'port', findings: [], closure: '', next: [] },
  datum: grid.datum,
  grids: [grid],
  proven: false,
  areas: [],
  facts: [],
  closure: [],
} as const;
const [network, map, repaint, areas] = inTurn(
  SMALL,
  () => fitPanel(panelLines, placements, 15),
  () => panelMap(solved, [0, 1500]),
  () => surfaceView([drawnPanel], { size: { width: 760, unit: 'px' }, from: 'below', unit: 'mm' }),
  () => areasOf(solved, [0, 1500], { tolerance: 1.5, over: 1500 }),
);
say('the network solved, all roughnesses (aim: under 50 ms)', network);
say('its map with uncertainty', map);
say(
  'the picture of that map, every contour and stroke, as it is painted again (aim: under 50 ms)',
  repaint,
);
say('its areas, decided', areas);

print('\nA log of 1,000,000 rows, one line');
const million = madeLog(1_000_000);
const bytes = new TextEncoder().encode(million.text);
const part = madeLog(100_000);
const partBytes = new TextEncoder().encode(part.text);
const [papa, whole, reading, tenth] = inTurn(
  LARGE,
  () => Papa.parse(million.text),
  () => judged(bytes),
  () => readLog(bytes),
  () => judged(partBytes),
);
say('Papa.parse of its text, nothing else', papa);
say('parsed, checked, fitted and decided', whole);
say('  of which parsed and checked', reading);
ratio('all of it against Papa.parse alone', median([...whole]), median([...papa]), 'at most 2.0');
say('100,000 rows, the same', tenth);
ratio(
  'cost a reading at 1,000,000 against 100,000',
  median([...whole]) / 10,
  median([...tenth]),
  'at most 1.5',
);

print('\n100,000 readings on one line, fitted');
const u = new Float64Array(part.x.length).fill(0.02);
const [ours] = inTurn(LARGE, () => fitProfile([{ x: part.x, gap: part.gap, u }], 15, 1500));
const profile = fitProfile([{ x: part.x, gap: part.gap, u }], 15, 1500);
const knots = profile.ok ? profile.basis.breaks.length : NaN;
say(
  `here, ${knots} knots, averaged over 4 ways to hold it, up to 19 roughnesses and 3 noises`,
  ours,
);
for (const { name, found } of references(part.x, part.gap, LARGE.runs)) {
  if (typeof found === 'string') {
    print(`${name}: ${found}`);
    continue;
  }
  say(`${name}, ${found.knots} knots, one roughness by cross-validation`, found.times);
  ratio(`here against it`, median([...ours]), found.times[0], 'at most 0.5');
}

print('\nRunning trim of 10,000 random hulls');
const hulls = randomHulls(10_000);
for (const hull of hulls.slice(0, 500)) equilibrium(hull);
let told = 0;
const each = hulls.map((hull) => {
  const start = performance.now();
  if (equilibrium(hull).ok) told += 1;
  return performance.now() - start;
});
const sorted = [...each].sort((a, b) => a - b);
print(
  `one equilibrium, ${told} of ${hulls.length} told and the rest refused: median ${sorted[sorted.length >> 1].toFixed(4)} ms, 99 of 100 under ${sorted[Math.floor(sorted.length * 0.99)].toFixed(3)} ms (aim: under 1 ms)`,
);
