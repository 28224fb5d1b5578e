import * as fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { accounts, simplestAccount } from '../../src/fit/account.ts';
import { chords, hollow, hump, type Chords } from '../../src/fit/departures.ts';
import type { Shape } from './support.ts';

const T = 1.5;
const EXACT = { left: 1e-9, size: 1e-9 };
let whole: Chords;
let short: Chords;
beforeEach(() => {
  whole = chords(0, 1500, 1500);
  short = chords(0, 1500, 700);
});

const largest = (values: Float64Array) => Math.max(...values);
const heights = (shape: Shape, on: Chords) => Float64Array.from(on.x, shape);
const accountOf = (shape: Shape, on: Chords, rounding = EXACT) =>
  simplestAccount(accounts(heights(shape, on), on), T, rounding);

/** Depth d from a to b, straight elsewhere. */
const dip =
  (d: number, a: number, b: number): Shape =>
  (x) =>
    x <= a || x >= b ? 0 : (-d / 2) * (1 - Math.cos((2 * Math.PI * (x - a)) / (b - a)));

describe.each([
  ['an edge as long as the line', () => whole],
  ['a shorter edge', () => short],
])('the simplest account, with %s', (_, given) => {
  let on: Chords;
  beforeEach(() => {
    on = given();
  });

  it('counts a hollow in a straight bottom as a hollow only, its shoulders as nothing', () => {
    const shape = dip(3, 500, 1000);
    expect(largest(hump(heights(shape, on), on))).toBeGreaterThan(1);
    const account = accountOf(shape, on);
    expect(account.told).toBe('hollows first');
    expect(largest(account.hollow)).toBeCloseTo(3, 2);
    expect(largest(account.hump)).toBeLessThan(1e-9);
  });

  it('counts a hump on a straight bottom as a hump only, the dips beside it as nothing', () => {
    const account = accountOf(dip(-3, 500, 1000), on);
    expect(account.told).toBe('humps first');
    expect(largest(account.hump)).toBeCloseTo(3, 2);
    expect(largest(account.hollow)).toBeLessThan(1e-9);
  });

  it('counts a hollow aft and a hump forward as both where neither explains the other', () => {
    const account = accountOf((x) => dip(4, 100, 700)(x) + dip(-3, 800, 1400)(x), on);
    expect(account.told).toBe('hollows first');
    expect(largest(account.hollow)).toBeGreaterThan(T);
    expect(largest(account.hump)).toBeGreaterThan(T);
  });

  it('swaps everything when the profile is mirrored, to the last bit', () => {
    const anyShape = fc.record({
      bend: fc.double({ min: -4e-6, max: 4e-6, noNaN: true }),
      wave: fc.double({ min: -3, max: 3, noNaN: true }),
      pitch: fc.integer({ min: 300, max: 2000 }),
    });
    const other = { 'hollows first': 'humps first', 'humps first': 'hollows first' } as const;
    fc.assert(
      fc.property(anyShape, ({ bend, wave, pitch }) => {
        const z = heights((x) => bend * x * x + wave * Math.sin(x / pitch), on);
        const found = simplestAccount(accounts(z, on), T, EXACT);
        const mirrored = simplestAccount(
          accounts(
            z.map((v) => -v),
            on,
          ),
          T,
          EXACT,
        );
        expect(mirrored.hollow).toEqual(found.hump);
        expect(mirrored.hump).toEqual(found.hollow);
        if (found.told !== 'both as they stand') expect(mirrored.told).toBe(other[found.told]);
      }),
      { seed: 141, numRuns: 150 },
    );
  });
});

describe('where both accounts hold', () => {
  // One sine over the line: chords rise off it as tangents do, so that its hollow is 1.366 of its
  // amplitude, while with the hollow bridged its hump stands just its amplitude off.
  const sine =
    (amplitude: number): Shape =>
    (x) =>
      amplitude * Math.sin((2 * Math.PI * x) / 1500);

  it('and leave the same, hollow and hump both stand, though either is above the tolerance', () => {
    const z = heights(sine(1.2), whole);
    const all = accounts(z, whole);
    expect(largest(all.hollow)).toBeGreaterThan(T);
    expect(largest(all.humpLeft)).toBeLessThan(T);
    expect(largest(all.hollowLeft)).toBeLessThan(T);
    const account = simplestAccount(all, T, EXACT);
    expect(account.told).toBe('both as they stand');
    expect(account.hollow).toEqual(hollow(z, whole));
    expect(account.hump).toEqual(hump(z, whole));
  });

  it('and one leaves less, that one counts', () => {
    const account = accountOf((x) => sine(1.1)(x) + 3e-7 * x * x, whole);
    expect(account.told).toBe('hollows first');
    expect(accountOf((x) => -sine(1.1)(x) - 3e-7 * x * x, whole).told).toBe('humps first');
  });

  it('and the difference lies within the rounding allowed, both stand', () => {
    const shape: Shape = (x) => sine(1.1)(x) + 3e-7 * x * x;
    expect(accountOf(shape, whole, { ...EXACT, left: 0.5 }).told).toBe('both as they stand');
  });
});

it('leaves of a bridged line what its own departures are, whichever way they are found', () => {
  // With the edge as long as the line the code takes one chord; every chord gives the same.
  for (const on of [whole, short]) {
    const z = heights((x) => 2 * Math.sin(x / 170) + 1e-6 * x * x, on);
    const all = accounts(z, on);
    const bridged = z.map((v, i) => v + all.hollow[i]);
    const shaved = z.map((v, i) => v - all.hump[i]);
    hump(bridged, on).forEach((v, i) => expect(all.humpLeft[i]).toBeCloseTo(v, 12));
    hollow(shaved, on).forEach((v, i) => expect(all.hollowLeft[i]).toBeCloseTo(v, 12));
    for (const name of ['hollow', 'hump', 'humpLeft', 'hollowLeft'] as const) {
      expect(all.largest[name]).toBe(largest(all[name]));
    }
  }
});

describe('the tolerance that an account must keep to', () => {
  const nothing = new Float64Array(1);
  const toldOf = (humpLeft: number, hollowLeft: number, left = 1e-9) => {
    const all = { hollow: nothing, hump: nothing, humpLeft: nothing, hollowLeft: nothing };
    const sizes = { hollow: 5, hump: 5, humpLeft, hollowLeft };
    return simplestAccount({ ...all, largest: sizes }, T, { left, size: 1e-9 }).told;
  };

  it('is kept to by what leaves just as much', () => {
    expect(toldOf(T, 3)).toBe('hollows first');
    expect(toldOf(3, T)).toBe('humps first');
    expect(toldOf(T, T)).toBe('both as they stand');
    expect(toldOf(3, 3)).toBe('both as they stand');
  });

  it('decides before rounding does, where one account keeps to it and the other does not', () => {
    expect(toldOf(1, 1.1, Infinity)).toBe('both as they stand');
    expect(toldOf(1, 1.6, Infinity)).toBe('hollows first');
    expect(toldOf(1.6, 1, Infinity)).toBe('humps first');
  });
});

describe('where neither account holds and hollow and hump differ by less than the rounding', () => {
  it('both stand as they are', () => {
    const shape: Shape = (x) => 2.2 * Math.sin((2 * Math.PI * x) / 1500) + 2e-8 * x * x;
    const account = accountOf(shape, whole, { ...EXACT, size: 0.5 });
    expect(account.told).toBe('both as they stand');
    expect(largest(account.hollow)).toBe(largest(hollow(heights(shape, whole), whole)));
    expect(accountOf(shape, whole).told).not.toBe('both as they stand');
  });
});
