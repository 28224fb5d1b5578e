import { describe, expect, test } from 'vitest';
import { canProve, type PlannedLine } from '../../src/survey/canProve.ts';
import { startingStations } from '../../src/survey/startingStations.ts';

const INCH = 25.4;
const limit = 60 * INCH;
const inches = (denominator: number): PlannedLine => {
  const division = INCH / denominator;
  return {
    stations: startingStations(limit, 'in').map(({ mm }) => mm),
    // GUM F.2.2.1, and half a division for repeating it: the house default.
    u: Math.hypot(division / Math.sqrt(12), division / 2),
    tolerance: INCH / 16,
    over: limit,
    limit,
    unit: 'in',
  };
};

describe('what a gauge and a set of stations can prove', () => {
  // 3/32 and 1/32 in with a rule in 32nds: the figures that the app's own plan gives as its example.
  test('a rule in 32nds at 3 in then 6 in proves a hook of about 3/32 in, and fair up to about 1/32', () => {
    const found = canProve(inches(32));
    expect(found.ok).toBe(true);
    if (!found.ok) return;
    expect((found.hookFrom ?? NaN) / INCH).toBeCloseTo(3 / 32, 2);
    expect((found.fairUpTo ?? NaN) / INCH).toBeCloseTo(1 / 32, 2);
  });

  test('a finer gauge brings both nearer to the tolerance, never past it', () => {
    const [coarse, fine] = [canProve(inches(32)), canProve(inches(64))];
    if (!coarse.ok || !fine.ok) throw new Error('both can be worked out');
    expect(fine.hookFrom ?? NaN).toBeLessThan(coarse.hookFrom ?? NaN);
    expect(fine.fairUpTo ?? NaN).toBeGreaterThan(coarse.fairUpTo ?? NaN);
    expect(fine.hookFrom ?? NaN).toBeGreaterThan(INCH / 16);
    expect(fine.fairUpTo ?? NaN).toBeLessThan(INCH / 16);
  });

  test('more stations prove a smaller hook', () => {
    const at = (n: number) => {
      const stations = Array.from({ length: n }, (_, i) => (i * 1500) / (n - 1));
      return canProve({ stations, u: 0.2, tolerance: 1.5, over: 1500, limit: 1500, unit: 'mm' });
    };
    const [few, many] = [at(6), at(25)];
    if (!few.ok || !many.ok) throw new Error('both can be worked out');
    expect(many.hookFrom ?? NaN).toBeLessThan(few.hookFrom ?? NaN);
  });

  test('a gauge too coarse for the tolerance proves nothing fair, and says no figure for it', () => {
    const found = canProve(inches(4));
    expect(found.ok && 'fairUpTo' in found).toBe(false);
  });

  test('three stations within the limit are too few, however many lie beyond it', () => {
    const found = canProve({ ...inches(32), stations: [0, 75, 150, 1600, 1700], limit: 1500 });
    expect(found).toEqual({ ok: false, reason: 'too few stations', n: 3, needed: 4 });
  });

  test('the order of the stations and one named twice change nothing', () => {
    const plan = inches(32);
    const again = { ...plan, stations: [...plan.stations, plan.stations[3]].reverse() };
    expect(canProve(again)).toEqual(canProve(plan));
  });

  test('lengths that are no lengths are the caller’s mistake', () => {
    expect(() => canProve({ ...inches(32), u: 0 })).toThrow(RangeError);
    expect(() => canProve({ ...inches(32), limit: Infinity })).toThrow(RangeError);
  });
});
