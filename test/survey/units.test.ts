import { describe, expect, it } from 'vitest';

import {
  UNITS,
  UNIT_LIST,
  readUnit,
  showLength,
  showUnit,
  toMm,
  unitNamed,
} from '../../src/survey/units.ts';

describe('units', () => {
  it('hold 1 in = 25.4 mm and 1 ft = 304.8 mm exactly', () => {
    // NIST SP 811 (2008), appendix B.8: inch to metre 2.54 E-02, foot to metre 3.048 E-01, both exact.
    expect(UNITS.in.mm).toBe(25.4);
    expect(UNITS.ft.mm).toBe(304.8);
    expect(12 * UNITS.in.mm).toBeCloseTo(UNITS.ft.mm, 12);
  });

  it('round once: 3 in is 76.2 mm and 3/32 in is 2.38125 mm', () => {
    expect(toMm(3, 'in')).toBe(76.2);
    expect(toMm(3, 'in', 32)).toBe(2.38125);
    expect(toMm(0.1, 'mm')).toBe(0.1);
  });

  it('are known by every name that they list, in any case, and by no other', () => {
    for (const unit of UNIT_LIST) {
      for (const name of UNITS[unit].names) expect(unitNamed(name.toUpperCase())).toBe(unit);
    }
    expect(unitNamed('in.')).toBe('in');
    for (const word of ['', 'furlong', 'constructor', '__proto__'])
      expect(unitNamed(word)).toBeUndefined();
  });

  it('read back as they are shown, counted parts of an inch included', () => {
    for (const counted of [
      { unit: 'mm' },
      { unit: 'in' },
      { unit: 'in', denominator: 32 },
    ] as const) {
      expect(readUnit(showUnit(counted))).toEqual(counted);
    }
    for (const text of ['1/0 in', '2/32 in', '1/32', '1/32 furlong', '']) {
      expect(readUnit(text)).toBeUndefined();
    }
  });
});

describe('showLength', () => {
  it.each([
    [3.96875, 32, '5/32'],
    [27.78125, 32, '1 3/32'],
    [3.175, 32, '1/8'],
    [25.4, 32, '1'],
    [0, 32, '0'],
    [-2.38125, 32, '-3/32'],
    [0.3, 32, '0'],
    [-0.3, 32, '0'],
    [25.3, 16, '1'],
    [2.4, 32, '3/32'],
    [0.396875, 32, '1/32'],
  ])('shows %f mm to the nearest 1/%i in as %s', (mm, denominator, text) => {
    expect(showLength(mm, { unit: 'in', denominator })).toBe(text);
  });

  it.each([
    [2.38125, 'mm', 1, '2.4'],
    [2.38125, 'mm', 0, '2'],
    [2, 'mm', 1, '2.0'],
    [1.005, 'mm', 2, '1.01'],
    [-0.04, 'mm', 1, '0.0'],
    [-1.25, 'mm', 1, '-1.3'],
    [25.4, 'in', 3, '1.000'],
  ] as const)('shows %f mm in %s with %i decimals as %s', (mm, unit, decimals, text) => {
    expect(showLength(mm, { unit, decimals })).toBe(text);
  });

  it('refuses a length that is no number and a fineness that is none', () => {
    expect(() => showLength(Number.NaN, { unit: 'mm', decimals: 1 })).toThrow(RangeError);
    expect(() => showLength(1, { unit: 'mm', decimals: 1.5 })).toThrow(RangeError);
    expect(() => showLength(1, { unit: 'in', denominator: 0 })).toThrow(RangeError);
  });
});
