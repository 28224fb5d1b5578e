import { describe, expect, it } from 'vitest';
import { farFrom } from '../../src/fit/farFrom.ts';
import type { Section } from '../../src/fit/sections.ts';

const x = Float64Array.of(0, 10, 20, 30);
const section = (leaning: Section['leaning'], from: number, to: number, probability = 1) => ({
  from,
  to,
  class: leaning,
  leaning,
  proven: true,
  probability,
});
/** Two pairs of draws whose largest lie `spread` either way of `size`, at the place 10. */
const drawn = (size: number, spread: number) =>
  [1, -1, 1, -1].map((sign) => Float64Array.of(0, size + sign * spread, 0, 0));
const counted = (hollows: Float64Array[], humps: Float64Array[]) => ({
  hollows,
  humps,
  typical: 'both as they stand' as const,
});
const nothing = drawn(0, 0);
const fair = { sections: [section('fair', 0, 30)], fairness: 1 };
const hooked = { sections: [section('hook', 0, 15), section('fair', 15, 30)], fairness: 0 };

// Four draws a ± s have the standard deviation s·√(4/3).
describe('a verdict that more draws cannot change', () => {
  it('is fair where hollows and humps both keep four times their spread below the tolerance', () => {
    const near = 1 - 4 * 0.1 * Math.sqrt(4 / 3);
    expect(farFrom(1, counted(drawn(near - 0.01, 0.1), nothing), fair, x)).toBe(true);
    expect(farFrom(1, counted(drawn(near + 0.01, 0.1), nothing), fair, x)).toBe(false);
    expect(farFrom(1, counted(nothing, drawn(near - 0.01, 0.1)), fair, x)).toBe(true);
    expect(farFrom(1, counted(nothing, drawn(near + 0.01, 0.1)), fair, x)).toBe(false);
  });

  it('is hook where some place of it stands as far above, and humps as far below', () => {
    const near = 1 + 4 * 0.1 * Math.sqrt(4 / 3);
    expect(farFrom(1, counted(drawn(near + 0.01, 0.1), nothing), hooked, x)).toBe(true);
    expect(farFrom(1, counted(drawn(near - 0.01, 0.1), nothing), hooked, x)).toBe(false);
    expect(farFrom(1, counted(drawn(near + 0.01, 0.1), drawn(0.9, 0.1)), hooked, x)).toBe(false);
  });

  it('asks it of every departing section', () => {
    const two = {
      sections: [section('hook', 0, 15), section('fair', 15, 25), section('hook', 25, 30)],
      fairness: 0,
    };
    const deep = drawn(3, 0.1).map((draw) => draw.fill(3, 3));
    const low = drawn(3, 0.1).map((draw, k) => draw.fill(1.05 + (k % 2 ? 0.1 : -0.1), 3));
    expect(farFrom(1, counted(deep, nothing), two, x)).toBe(true);
    expect(farFrom(1, counted(low, nothing), two, x)).toBe(false);
  });

  it('is none while the draws disagree about a section or the line', () => {
    const one = counted(drawn(3, 0.1), nothing);
    expect(farFrom(1, one, hooked, x)).toBe(true);
    expect(farFrom(1, one, { ...hooked, fairness: 0.01 }, x)).toBe(false);
    const doubted = [section('hook', 0, 15), section('fair', 15, 30, 0.99)];
    expect(farFrom(1, one, { sections: doubted, fairness: 0 }, x)).toBe(false);
  });

  it('looks for a hook inside of its section only', () => {
    const elsewhere = { sections: [section('fair', 0, 15), section('hook', 15, 30)], fairness: 0 };
    expect(farFrom(1, counted(drawn(3, 0.1), nothing), elsewhere, x)).toBe(false);
    const aft = { sections: [section('hook', 0, 5), section('fair', 5, 30)], fairness: 0 };
    expect(farFrom(1, counted(drawn(3, 0.1), nothing), aft, x)).toBe(false);
  });
});
