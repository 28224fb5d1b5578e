import { describe, expect, it } from 'vitest';
import { borneOut } from '../../src/fit/borneOut.ts';
import type { Section } from '../../src/fit/sections.ts';

// Normal probabilities from Abramowitz and Stegun (1964), table 26.1: P(1) = 0.841344746, P(1.5) = 0.933192799,
// P(2) = 0.977249868.

const asked = { tolerance: 1, proven: 0.975 };
const sure = { shift: 0, variance: 0 };
const section = (leaning: Section['leaning'], probability: number, from = 0, to = 10): Section => ({
  from,
  to,
  class: probability >= 0.975 ? leaning : 'undecided',
  leaning,
  proven: probability >= 0.975,
  probability,
});
const told = (at: number, size: number, u: number, doubt = sure) => ({
  told: { at, size, u },
  doubt,
});
/** As many draws as hollows are given, each with one hollow and one hump. */
const drawn = (hollows: readonly number[], humps: readonly number[]) => ({
  hollows: hollows.map((h) => Float64Array.of(0, h, 0)),
  humps: humps.map((r) => Float64Array.of(0, r, 0)),
  typical: 'both as they stand' as const,
});
const none = (): never => {
  throw new Error('no size was to be asked for');
};
const nothing = told(5, 0, 0.1);

describe('a hook or rocker that the draws prove', () => {
  const found = { sections: [section('hook', 1)], fairness: 0 };
  const draws = drawn([2, 2], [0, 0]);
  const hookOf = (size: number, u: number) =>
    borneOut(found, draws, asked, { hollow: told(5, size, u), hump: nothing }, () => ({ size, u }));

  it('is no likelier than that the size told is above the tolerance', () => {
    expect(hookOf(3, 1).sections[0].probability).toBeCloseTo(0.977249868, 9);
    expect(hookOf(3, 1).sections[0]).toMatchObject({ class: 'hook', proven: true });
    expect(hookOf(2.5, 1).sections[0].probability).toBeCloseTo(0.933192799, 9);
  });

  it('is undecided where that size does not bear it out, and still leans to what it leant to', () => {
    expect(hookOf(2.5, 1).sections[0]).toMatchObject({
      class: 'undecided',
      leaning: 'hook',
      proven: false,
    });
    expect(hookOf(0.5, 0).sections[0].probability).toBe(0);
    expect(hookOf(1.5, 0).sections[0].probability).toBe(1);
  });

  it('is never likelier than the draws have it', () => {
    const less = { sections: [section('rocker', 0.98)], fairness: 0 };
    const { sections } = borneOut(
      less,
      drawn([0, 0], [2, 2]),
      asked,
      { hollow: nothing, hump: told(5, 9, 1) },
      () => ({ size: 9, u: 1 }),
    );
    expect(sections[0].probability).toBe(0.98);
  });

  it('is asked the size of its own section, and one that the draws do not prove is not asked', () => {
    const two = {
      sections: [
        section('hook', 0.99, 0, 4),
        section('rocker', 0.9, 4, 6),
        section('hook', 1, 6, 10),
      ],
      fairness: 0,
    };
    const heard: number[] = [];
    const { sections } = borneOut(
      two,
      draws,
      asked,
      { hollow: told(8, 9, 1), hump: nothing },
      ({ from }) => {
        heard.push(from);
        return from === 0 ? { size: 2, u: 1 } : { size: 9, u: 1 };
      },
    );
    expect(heard).toEqual([0, 6]);
    expect(sections.map((s) => s.class)).toEqual(['undecided', 'undecided', 'hook']);
    expect(sections[0].probability).toBeCloseTo(0.841344746, 9);
    expect(sections[1].probability).toBe(0.9);
  });
});

describe('a line that the draws prove fair', () => {
  const found = { sections: [section('fair', 1)], fairness: 1 };
  const doubt = { shift: 0.1, variance: 0.04 };

  it('is as likely fair as its largest hollow with its doubt keeps within the tolerance', () => {
    // 1 − 0.5 − 0.1 is two deviations of 0.2.
    const { fairness, sections } = borneOut(
      found,
      drawn([0.5, 0.5], [0, 0]),
      asked,
      { hollow: told(5, 0.5, 0.1, doubt), hump: nothing },
      none,
    );
    expect(fairness).toBeCloseTo(0.977249868, 9);
    expect(sections[0].probability).toBeCloseTo(0.977249868, 9);
    expect(sections[0]).toMatchObject({ class: 'fair', proven: true });
  });

  it('takes the doubts of hollow and hump as independent', () => {
    const { fairness, sections } = borneOut(
      found,
      drawn([0.5, 0.5], [0.6, 0.6]),
      asked,
      { hollow: told(5, 0.5, 0.1, doubt), hump: told(5, 0.6, 0.1, doubt) },
      none,
    );
    expect(fairness).toBeCloseTo(0.977249868 * 0.933192799, 8);
    expect(sections[0]).toMatchObject({ class: 'undecided', leaning: 'fair', proven: false });
  });

  it('is averaged over the draws', () => {
    const { fairness } = borneOut(
      found,
      drawn([0.5, 0.7], [0, 0]),
      asked,
      { hollow: told(5, 0.6, 0.1, doubt), hump: nothing },
      none,
    );
    expect(fairness).toBeCloseTo((0.977249868 + 0.841344746) / 2, 9);
  });

  it('is never likelier than the draws have it, though a doubt would make a departure smaller', () => {
    const most = { sections: [section('fair', 0.98)], fairness: 0.98 };
    const { fairness, sections } = borneOut(
      most,
      drawn([1.1, 0.5], [0, 0]),
      asked,
      { hollow: told(5, 0.8, 0.1, { shift: -0.3, variance: 0 }), hump: nothing },
      none,
    );
    expect(fairness).toBe(0.98);
    expect(sections[0].probability).toBe(0.98);
  });

  it('is left as it is where the draws do not prove it', () => {
    const less = { sections: [section('fair', 0.97)], fairness: 0.97 };
    const said = borneOut(
      less,
      drawn([0.5, 0.5], [0, 0]),
      asked,
      { hollow: told(5, 0.5, 0.1, doubt), hump: nothing },
      none,
    );
    expect(said).toEqual(less);
  });

  it('is left as it is where there is no doubt', () => {
    const said = borneOut(
      found,
      drawn([1, 0.5], [0.2, 1]),
      asked,
      { hollow: nothing, hump: nothing },
      none,
    );
    expect(said).toEqual(found);
  });
});

it('a fair section is spoiled by the kinds whose largest lies in it, and by no other', () => {
  const found = {
    sections: [section('fair', 1, 0, 4), section('fair', 0.99, 4, 7), section('fair', 1, 7, 10)],
    fairness: 0.98,
  };
  const doubt = { shift: 0, variance: 0.25 };
  const { sections } = borneOut(
    found,
    drawn([0.5, 0.5], [0.25, 0.25]),
    asked,
    { hollow: told(2, 0.5, 0.1, doubt), hump: told(8, 0.25, 0.1, doubt) },
    none,
  );
  expect(sections[0].probability).toBeCloseTo(0.841344746, 9);
  expect(sections[1]).toEqual(found.sections[1]);
  expect(sections[2].probability).toBeCloseTo(0.933192799, 9);
});

it('mirroring swaps hook and rocker to the last bit', () => {
  const doubts = [
    { shift: 0.07, variance: 0.03 },
    { shift: -0.02, variance: 0.011 },
  ];
  const deep = [1.31, 0.7, 0.2, 0.93];
  const high = [0.3, 0.81, 0.44, 0.1];
  const one = borneOut(
    { sections: [section('fair', 0.99), section('hook', 1, 10, 20)], fairness: 0.98 },
    drawn(deep, high),
    asked,
    { hollow: told(5, 0.7, 0.1, doubts[0]), hump: told(5, 0.4, 0.1, doubts[1]) },
    () => ({ size: 1.6, u: 0.31 }),
  );
  // The draws of a pair change places when a profile is mirrored.
  const swapped = (values: readonly number[]) => [values[1], values[0], values[3], values[2]];
  const other = borneOut(
    { sections: [section('fair', 0.99), section('rocker', 1, 10, 20)], fairness: 0.98 },
    drawn(swapped(high), swapped(deep)),
    asked,
    { hollow: told(5, 0.4, 0.1, doubts[1]), hump: told(5, 0.7, 0.1, doubts[0]) },
    () => ({ size: 1.6, u: 0.31 }),
  );
  expect(other.fairness).toBe(one.fairness);
  expect(other.sections.map((s) => s.probability)).toEqual(one.sections.map((s) => s.probability));
});
