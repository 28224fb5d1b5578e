import { describe, expect, it } from 'vitest';
import { coverage95, effectiveDof } from '../../src/fit/coverage.ts';

describe('effective degrees of freedom', () => {
  it('are 16 in whole numbers for the end gauge of GUM H.1', () => {
    // JCGM 100:2008, H.1.6: uc = 32 nm of 25 nm (18), 9.7 nm (25.6), 2.9 nm (50) and 16.6 nm (2), 16.7 before it is
    // cut to 16. From memory; the printed parts are rounded, so that the first decimal is not held.
    const dof = effectiveDof([
      { u: 25, dof: 18 },
      { u: 9.7, dof: 25.6 },
      { u: 2.9, dof: 50 },
      { u: 16.6, dof: 2 },
    ]);
    expect(dof).toBeCloseTo(16.7, 0);
    expect(Math.floor(dof ?? NaN)).toBe(16);
  });

  it('are those of a part that stands alone, and none where no part has any', () => {
    expect(effectiveDof([{ u: 0.3, dof: 12 }])).toBeCloseTo(12, 12);
    expect(effectiveDof([{ u: 0.3 }, { u: 0.1 }])).toBeUndefined();
    expect(effectiveDof([{ u: 0.3 }, { u: 0, dof: 12 }])).toBeUndefined();
    expect(effectiveDof([])).toBeUndefined();
  });

  it('are the squared sum of squares over the sum of fourth powers a degree of freedom', () => {
    // GUM G.2b by hand: (9 + 16)² / (3⁴/10 + 4⁴/20) = 625 / 20.9.
    const parts = [
      { u: 3, dof: 10 },
      { u: 4, dof: 20 },
    ];
    expect(effectiveDof(parts)).toBeCloseTo(625 / 20.9, 12);
    // A part that is known adds to the uncertainty and not to its doubt: (9 + 16 + 144)² / 20.9.
    expect(effectiveDof([{ u: 12 }, ...parts])).toBeCloseTo(28561 / 20.9, 10);
  });

  it('never fall below the least of the parts', () => {
    expect(
      effectiveDof([
        { u: 1, dof: 12 },
        { u: 2, dof: 30 },
        { u: 3, dof: 14 },
      ]),
    ).toBeGreaterThan(12);
  });

  it('throw RangeError on what cannot be an uncertainty or a degree of freedom', () => {
    expect(() => effectiveDof([{ u: -1 }])).toThrow(RangeError);
    expect(() => effectiveDof([{ u: NaN }])).toThrow(RangeError);
    expect(() => effectiveDof([{ u: 1, dof: 0 }])).toThrow(
      new RangeError('degrees of freedom above 0 expected, got 0'),
    );
    expect(() => effectiveDof([{ u: 1, dof: NaN }])).toThrow(RangeError);
    expect(() => effectiveDof([{ u: -0.1 }])).toThrow(
      new RangeError('u of 0 or more expected, got -0.1'),
    );
  });
});

describe('the factor for 95 %', () => {
  // JCGM 100:2008 (GUM), Table G.2, column 95 %, from memory and confirmed with scipy 1.10.
  it.each([
    [5, 2.57],
    [6, 2.45],
    [7, 2.36],
    [8, 2.31],
    [9, 2.26],
    [10, 2.23],
    [12, 2.18],
    [15, 2.13],
    [20, 2.09],
    [25, 2.06],
    [30, 2.04],
    [40, 2.02],
    [50, 2.01],
  ])('of %d degrees of freedom is that of GUM G.2, %f', (dof, t) => {
    expect(Number(coverage95(dof).toFixed(2))).toBe(t);
  });

  it.each([
    // scipy 1.10, stats.t.ppf(0.975, dof).
    [10, 2.2281388519649385],
    [20, 2.0859634472658364],
    [100, 1.9839715184496334],
  ])('of %d degrees of freedom is within 1e-5 of the exact %f', (dof, t) => {
    expect(Math.abs(coverage95(dof) - t)).toBeLessThan(1e-5);
  });

  it.each([
    // Abramowitz & Stegun (1964), 26.7.5 to its fourth term, worked in exact fractions.
    [5, 2.570308227150843],
    [6, 2.446804391979526],
    [8, 2.3059793929408485],
    [12, 2.1788096740090888],
  ])('of %d degrees of freedom is the series of 26.7.5 to its last digits', (dof, t) => {
    expect(coverage95(dof)).toBeCloseTo(t, 13);
  });

  it('is 1.960 without degrees of freedom, and refuses fewer than 5', () => {
    expect(coverage95()).toBeCloseTo(1.96, 4);
    expect(() => coverage95(4.9)).toThrow(
      new RangeError('5 degrees of freedom or more expected, got 4.9'),
    );
    expect(() => coverage95(NaN)).toThrow(RangeError);
  });
});
