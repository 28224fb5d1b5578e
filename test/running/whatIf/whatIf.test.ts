import { readFileSync } from 'node:fs';
import { describe, expect, test, vi } from 'vitest';
import { readBoat } from '../../../src/running/file/readBoat.ts';
import { SPEED_UNITS } from '../../../src/running/speedUnits.ts';
import type { WhatIfBoat } from '../../../src/running/whatIf/boat.ts';
import { whatIf } from '../../../src/running/whatIf/whatIf.ts';
import { largerLever, showShare, whatIfWords } from '../../../src/running/whatIf/whatIfWords.ts';

// A few hundred boats are run at several speeds, and the machine may be busy.
vi.setConfig({ testTimeout: 60_000 });

const read = readBoat(
  JSON.parse(
    readFileSync(new URL('../../../fixtures/samples/tern-reach.json', import.meta.url), 'utf8'),
  ),
);
if (!read.ok) throw new Error(JSON.stringify(read.faults));
const { boat, at } = read;
const speeds = [24, 28, 32].map((kn) => kn * SPEED_UNITS.kn);
const ask = (changed: Partial<WhatIfBoat> = {}) => {
  const found = whatIf({ ...boat, ...changed }, speeds, at, 60);
  if (!found.ok) throw new Error(found.reason);
  return found;
};
const changeIn = (found: ReturnType<typeof ask>, name: string) => {
  const change = found.changes.find((one) => one.name === name);
  if (change?.trim === undefined || change.helps === undefined) throw new Error('not told');
  return { ...change, trim: change.trim, helps: change.helps };
};

// Invented, its truth known: a slight hook works against porpoising; the weight was moved aft.
describe('the boat whose bottom is not to blame', () => {
  const found = ask();

  test('has its weight as the larger lever, surely', () => {
    expect(largerLever(found)).toEqual({ lever: 'weight', sure: 'sure' });
  });

  test('trims more with its bottom made fair, less with its weight as designed, and somewhat less as proposed', () => {
    expect(changeIn(found, 'bottom made fair').trim.low).toBeGreaterThan(0);
    expect(changeIn(found, 'weight forward').trim.high).toBeLessThan(0);
    expect(changeIn(found, 'as proposed').trim.high).toBeLessThan(0);
    expect(changeIn(found, 'as proposed').trim.middle).toBeGreaterThan(
      changeIn(found, 'weight forward').trim.middle,
    );
  });

  test('is told so in words, with what it would cost', () => {
    const words = whatIfWords(found, read.units).join('\n');
    expect(words).toMatch(/Weight is the larger lever for this boat/);
    expect(words).toMatch(/The bottom as it is works against porpoising/);
    expect(words).toMatch(/As proposed: trim falls by .* the boat weighs 200 lb more/);
  });

  test('gives the same answer each time', () => {
    expect(ask()).toEqual(found);
  });
});

test('a rocker is the other way about: making it fair helps', () => {
  const found = ask({ tail: { angle: -1.5, u: 0.1, over: 300 } });
  expect(changeIn(found, 'bottom made fair').helps).toBe(1);
});

test('a tail of no angle and no doubt changes nothing when made fair', () => {
  expect(changeIn(ask({ tail: { angle: 0, u: 0, over: 300 } }), 'bottom made fair').trim).toEqual({
    low: 0,
    middle: 0,
    high: 0,
  });
});

test('asks only what the boat states: no tail no bottom, no change no weight', () => {
  const plain = { hull: boat.hull, water: boat.water, items: boat.items.slice(0, 1) };
  const found = whatIf(plain, speeds, at, 20);
  if (!found.ok) throw new Error(found.reason);
  expect(found.cases.map(({ name }) => name)).toEqual(['as now']);
  expect(found).not.toHaveProperty('weightLarger');
  expect(largerLever(found)).toBeUndefined();
});

test('more doubt about the tail widens what a fair bottom would change', () => {
  const { low, high } = changeIn(
    ask({ tail: { angle: 0.4, u: 0.02, over: 300 } }),
    'bottom made fair',
  ).trim;
  const wide = changeIn(ask({ tail: { angle: 0.4, u: 0.3, over: 300 } }), 'bottom made fair').trim;
  expect(wide.high - wide.low).toBeGreaterThan(high - low);
});

test('tabs and thrust that are ranges widen the trim, and leave its middle where it was', () => {
  const set = {
    tabs: [{ chord: 225, angle: 4, span: 0.5, aft: 225 }],
    thrust: { x: -900, height: -200, angle: 2 },
  };
  const width = (changed: Partial<WhatIfBoat>) => {
    const { curve } = ask({ ...set, ...changed }).cases[0];
    const { spread } = curve[1];
    if (spread === undefined) throw new Error('not told');
    return { ...spread, wide: spread.high - spread.low };
  };
  const exact = width({});
  const tabAngle = width({ doubt: { tabAngle: { low: 1, high: 7 } } });
  const thrust = width({ doubt: { thrustHeight: { low: -3200, high: 2800 } } });
  expect(tabAngle.wide).toBeGreaterThan(exact.wide);
  expect(thrust.wide).toBeGreaterThan(exact.wide);
  expect(Math.abs(tabAngle.middle - exact.middle)).toBeLessThan(0.2);
  // Bounds that are one figure are that figure.
  const point = width({
    doubt: { tabAngle: { low: 4, high: 4 }, thrustX: { low: -900, high: -900 } },
  });
  expect(Math.abs(point.middle - exact.middle)).toBeLessThan(0.1);
});

test('where the method tells nothing, no figure is given and the reason stands', () => {
  const found = whatIf(boat, [3], 3, 20);
  if (!found.ok) throw new Error(found.reason);
  expect(found.cases[0].curve[0]).toMatchObject({ runs: { ok: false }, stability: 'not told' });
  expect(found.changes[0]).not.toHaveProperty('trim');
  expect(whatIfWords(found, read.units)[0]).toMatch(/not told, too slow/);
});

test('a share of draws is never told as all or none', () => {
  expect([1, 0, 0.81].map(showShare)).toEqual([
    'more than 99 of 100',
    'fewer than 1 of 100',
    '81 of 100',
  ]);
});

test('refuses a speed that is none', () => {
  expect(() => whatIf(boat, [0], at)).toThrow(RangeError);
});

test('a deadrise that is in doubt widens what is told, and its absence changes nothing', () => {
  const wide = ask({ doubt: { deadrise: { low: 14, high: 24 } } });
  const width = (found: ReturnType<typeof ask>) => {
    const spread = found.cases[0].curve.find(({ speed }) => speed === at)?.spread;
    return spread === undefined ? Number.NaN : spread.high - spread.low;
  };
  expect(width(wide)).toBeGreaterThan(width(ask()));
  expect(ask({ doubt: { deadrise: { value: 20 } } }).cases[0].curve[0].runs).toEqual(
    ask().cases[0].curve[0].runs,
  );
});
