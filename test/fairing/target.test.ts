import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { fairingTarget, type FairingTarget } from '../../src/fairing/target.ts';
import { assess } from '../../src/survey/assess.ts';
import { readCsv } from '../../src/survey/csv/readCsv.ts';
import { lineOf } from './lineOf.ts';

const touching = { reference: 'touching the high spots', unit: 'mm', tolerance: 1.5 } as const;
const best = { reference: 'best straight line', unit: 'mm', tolerance: 1.5 } as const;
const L = 1500;
const stations = [0, 300, 750, 1200, 1500];

function figures(target: FairingTarget) {
  return target.stations.flatMap((s) =>
    s.is === 'figured' ? [{ at: s.station, ...s.figure }] : [],
  );
}

test('a parabola c x² against the line that touches its ends is filled by c L²/4 at the middle', () => {
  const c = 8 / L ** 2;
  const found = figures(
    fairingTarget(
      lineOf((x) => c * x * x, L, stations),
      touching,
    ),
  );
  const middle = found.find(({ at }) => at === 750);
  expect(middle?.fill.exact).toBeCloseTo((c * L * L) / 4, 9);
  expect(middle?.fill.rounded).toBe(2);
  // c x (L − x) elsewhere; nothing at the ends.
  expect(found.map(({ fill }) => fill.exact)).toEqual(
    stations.map((x) => expect.closeTo(c * x * (L - x), 9) as number),
  );
});

test('a straight line added to the surface changes no figure', () => {
  const z = (x: number) => 3 * Math.cos(x / 200);
  for (const options of [touching, { ...best, grindLimit: 9 }]) {
    const before = figures(fairingTarget(lineOf(z, L, stations), options));
    const after = figures(
      fairingTarget(
        lineOf((x) => z(x) + 4 - x / 90, L, stations),
        options,
      ),
    );
    expect(after.map((f) => f.departure.size)).toEqual(
      before.map((f) => expect.closeTo(f.departure.size, 9) as number),
    );
    expect(after.map((f) => f.departure.way)).toEqual(before.map((f) => f.departure.way));
  }
});

test('touching the high spots there is never anything to grind', () => {
  const target = fairingTarget(
    lineOf((x) => 3 * Math.sin(x / 130), L, stations),
    touching,
  );
  for (const { grind, departure } of figures(target)) {
    expect(grind).toMatchObject({ is: 'depth', depth: { exact: 0, rounded: 0 } });
    expect(departure.way).toBe('hollow');
  }
});

test('a parabola against its best straight line is hollow by c L²/12 in the middle and proud by c L²/6 at the ends', () => {
  const c = 12 / L ** 2;
  const line = lineOf((x) => c * (x - L / 2) ** 2, L, stations);
  const found = figures(fairingTarget(line, { ...best, grindLimit: 5 }));
  // The 101 places stand for the integral to a hundredth of its size.
  expect(found[2]?.fill.exact).toBeCloseTo(1, 1);
  expect(found[0]?.grind).toMatchObject({
    is: 'depth',
    depth: { exact: expect.closeTo(2, 1) as number },
  });
});

test('fill and grind are never both there, and never negative', () => {
  const line = lineOf((x) => 2 * Math.sin(x / 170), L, stations);
  for (const { fill, grind } of figures(fairingTarget(line, { ...best, grindLimit: 5 }))) {
    if (grind.is !== 'depth') throw new Error('a depth expected');
    expect(Math.min(fill.exact, grind.depth.exact)).toBe(0);
    expect(Math.min(fill.rounded, grind.depth.rounded)).toBe(0);
    expect(fill.rounded).toBeGreaterThanOrEqual(0);
    expect(grind.depth.rounded).toBeGreaterThanOrEqual(0);
  }
});

test('against the best straight line nothing is ground without a stated limit', () => {
  const found = figures(
    fairingTarget(
      lineOf((x) => 2 * Math.sin(x / 170), L, stations),
      best,
    ),
  );
  expect(found.map(({ grind }) => grind.is)).toEqual(
    stations.map(() => 'not without a stated limit'),
  );
});

test('a high spot above the grind limit gets no figure, one below it does', () => {
  const line = lineOf((x) => 2 * Math.sin(x / 170), L, stations);
  const found = figures(fairingTarget(line, { ...best, grindLimit: 0.8 }));
  for (const { grind, departure } of found) {
    const over = departure.way === 'proud' && departure.size > 0.8;
    expect(grind.is).toBe(over ? 'over the limit' : 'depth');
  }
  expect(found.some(({ grind }) => grind.is === 'over the limit')).toBe(true);
});

test('stations void, put off, unread or ahead of the judged stretch are listed and carry no figure', () => {
  const station = (mm: number) => ({ mm, text: String(mm) });
  const line = lineOf((x) => x * x * 1e-6, L, [...stations, 1800], {
    voids: [{ station: station(450), reason: 'through-hull', source: 'made' }],
    later: [
      { station: station(600), reason: 'a stand in the way', source: 'made' },
      { station: station(300), reason: 'read since', source: 'made' },
    ],
  });
  const target = fairingTarget(line, { ...touching, planned: [station(900), station(1200)] });
  expect(target.stations.map(({ station: at, is }) => [at, is])).toEqual([
    [0, 'figured'],
    [300, 'figured'],
    [450, 'void'],
    [600, 'put off'],
    [750, 'figured'],
    [900, 'unread'],
    [1200, 'figured'],
    [1500, 'figured'],
    [1800, 'not judged'],
  ]);
});

test('a line with too few readings has stations and no figure', () => {
  const line = lineOf((x) => x, L, [0, 100]);
  const target = fairingTarget(
    { ...line, outcome: { ok: false, reason: 'too few readings', n: 2, needed: 4 } },
    touching,
  );
  expect(target).toMatchObject({ ok: false, reason: 'too few readings' });
  expect(target.stations.map(({ is }) => is)).toEqual(['not judged', 'not judged']);
});

test('a limit or tolerance that is not above 0 is refused', () => {
  const line = lineOf((x) => x, L, stations);
  expect(() => fairingTarget(line, { ...best, grindLimit: 0 })).toThrow(RangeError);
  expect(() => fairingTarget(line, { ...best, tolerance: NaN })).toThrow(RangeError);
});

function sampleLine(file: string, name: string) {
  const url = new URL(`../../fixtures/samples/${file}.csv`, import.meta.url);
  const read = readCsv(readFileSync(url, 'utf8'));
  if (!read.ok) throw new Error(file);
  const { lines, tolerance } = assess(read.survey);
  const line = lines.find((each) => each.line.name === name);
  if (line === undefined) throw new Error(name);
  return { line, tolerance: tolerance.gap };
}

test('the fill at the deepest station of a measured hook agrees with the hollow of its verdict, and so does its uncertainty', () => {
  const { line, tolerance } = sampleLine('inches-wide', 'P30in');
  if (!line.outcome.ok) throw new Error('judged expected');
  const { hollow } = line.outcome.judgement;
  const found = figures(fairingTarget(line, { ...touching, unit: 'in', tolerance }));
  const deepest = found.reduce((a, b) => (b.fill.exact > a.fill.exact ? b : a));
  expect(deepest.at).toBeCloseTo(18 * 25.4, 6);
  expect(Math.abs(deepest.fill.exact - hollow.size)).toBeLessThan(hollow.u);
  expect(deepest.departure.u).toBeGreaterThan(hollow.u / 1.5);
  expect(deepest.departure.u).toBeLessThan(hollow.u * 1.5);
});

test('a rocker is filled deepest at the transom', () => {
  const { line, tolerance } = sampleLine('stories/rocker-blocks', 'S300');
  const found = figures(fairingTarget(line, { ...touching, tolerance }));
  expect(Math.max(...found.map(({ fill }) => fill.exact))).toBe(found[0]?.fill.exact);
  expect(found[0]?.fill.exact).toBeGreaterThan(5);
});
