import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { exactDecimal, exactLength } from '../../src/survey/exactText.ts';
import { readLength } from '../../src/survey/readingText.ts';

const inches = { unit: 'in' } as const;
const mm = { unit: 'mm' } as const;

function mmOf(text: string, options: Parameters<typeof readLength>[1] = {}): number | string {
  const read = readLength(text, options);
  return read.ok ? read.mm : `${read.reason}: ${read.expected}`;
}

describe('readLength', () => {
  // Inches to mm by 25.4 exactly: NIST SP 811 (2008), appendix B.8.
  it.each([
    ['3/32', 2.38125],
    ['1 3/32', 27.78125],
    ['1-3/32', 27.78125],
    ['1 - 3/32', 27.78125],
    ['½', 12.7],
    ['1½', 38.1],
    ['1 ½', 38.1],
    ['⅛', 3.175],
    ['-⅛', -3.175],
    ['3⁄32', 2.38125],
    ['0.8', 20.32],
    ['0,8', 20.32],
    ['.5', 12.7],
    ['-.5', -12.7],
    ['−1/4', -6.35],
    ['-1 1/4', -31.75],
    ['3', 76.2],
    ['0', 0],
    ['-0', 0],
    ['  5/32  ', 3.96875],
  ])('reads %s as inches where the unit is inches', (text, expected) => {
    expect(mmOf(text, inches)).toBeCloseTo(expected, 12);
    expect(Object.is(mmOf(text, inches), -0)).toBe(false);
  });

  it.each([
    ['2.4mm', 2.4],
    ['2.4 mm', 2.4],
    ['2,4 mm', 2.4],
    ['2.4 MM', 2.4],
    ['2.4\u00a0mm', 2.4],
    ['3/32"', 2.38125],
    ['3/32 in', 2.38125],
    ['3/32 in.', 2.38125],
    ['3/32″', 2.38125],
    ["3/32''", 2.38125],
    ['1 3/32 inches', 27.78125],
    ['2.4″', 60.96],
    ['½ mm', 0.5],
    ['5 ft', 1524],
    ["5'", 1524],
    ['1.5 m', 1500],
    ['15 cm', 150],
  ])('takes %s as written, whatever unit is usual', (text, expected) => {
    for (const options of [{}, inches, mm, { unit: 'in', denominator: 32 } as const]) {
      expect(mmOf(text, options)).toBeCloseTo(expected, 12);
    }
  });

  it('keeps the text as typed, the unit, and whether the text said it', () => {
    expect(readLength(' 1-3/32" ', mm)).toEqual({
      ok: true,
      mm: 27.78125,
      text: '1-3/32"',
      unit: 'in',
      stated: true,
    });
    expect(readLength('20,1', mm)).toMatchObject({ text: '20,1', unit: 'mm', stated: false });
  });

  it.each([
    ['5', 3.96875, '5/32'],
    ['4', 3.175, '4/32'],
    ['35', 27.78125, '1 3/32'],
    ['-3', -2.38125, '-3/32'],
    ['0', 0, '0'],
    ['32', 25.4, '1'],
    ['1/16', 1.5875, '1/16'],
  ])('counts %s as parts of an inch and writes it in full', (text, expected, full) => {
    const read = readLength(text, { unit: 'in', denominator: 32 });
    expect(read).toMatchObject({ ok: true, text: full });
    expect(read.ok && read.mm).toBeCloseTo(expected, 12);
  });

  it('calls empty text absent, not 0', () => {
    for (const text of ['', '   ', '\t']) {
      expect(readLength(text, mm)).toMatchObject({ ok: false, reason: 'absent' });
    }
  });

  it.each([
    ['o.8', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['1/0', 'a fraction whose lower number is not 0, such as 5/32'],
    ['5/', 'a whole fraction, such as 5/32 or 1 3/32'],
    ['/5', 'a whole fraction, such as 5/32 or 1 3/32'],
    ['1/2/3', 'a whole fraction, such as 5/32 or 1 3/32'],
    ['1 35/32', 'a part smaller than one after the whole number, such as 1 3/32'],
    ['1,234.5', 'one decimal mark and no thousands marks, such as 1234.5'],
    ['1.234,5', 'one decimal mark and no thousands marks, such as 1234.5'],
    ['1 234', 'one decimal mark and no thousands marks, such as 1234.5'],
    ['1,234', '1234 or 1.234: the mark may be a thousands or a decimal mark'],
    ['1e9', 'a length written out, of nine figures at most before its decimals'],
    ['0x10', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['NaN', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['Infinity', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['-', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['.', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['--1', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['+1', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['3 furlongs', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
    ['in', 'a length, inches such as 3/32, 1 3/32 or 0.8'],
  ])('refuses %s and says what was expected', (text, expected) => {
    expect(readLength(text, inches)).toEqual({
      ok: false,
      reason: 'unreadable',
      found: text,
      expected,
    });
  });

  it('refuses a bare fraction where mm are usual, since it is hardly a fraction of a mm', () => {
    expect(readLength('3/32', mm)).toMatchObject({
      ok: false,
      expected:
        'millimetres as a decimal, such as 2.4, or the fraction with its unit, such as 3/32 in',
    });
  });

  it('refuses a decimal where whole parts are counted: 2.5 may be inches or parts', () => {
    expect(readLength('2.5', { unit: 'in', denominator: 32 })).toMatchObject({
      ok: false,
      expected: 'a whole number of 1/32 in, or a fraction such as 3/32',
    });
  });

  it('asks for the unit where neither the text nor anything else says it', () => {
    expect(readLength('2.4')).toMatchObject({ ok: false, reason: 'no unit' });
    expect(readLength('3/32')).toMatchObject({ ok: false, reason: 'no unit' });
    expect(readLength('o.8')).toMatchObject({ ok: false, reason: 'unreadable' });
  });

  it('knows 1,234 from 1.234 where the decimal mark of the file is known', () => {
    expect(mmOf('1,234', { ...mm, decimal: ',' })).toBe(1.234);
    expect(mmOf('1.234', { ...mm, decimal: '.' })).toBe(1.234);
    expect(mmOf('0,125', mm)).toBe(0.125);
    expect(mmOf('1,234', { ...mm, decimal: '.' })).toMatch(/thousands/);
    expect(mmOf('1.234', { ...mm, decimal: ',' })).toMatch(/thousands/);
  });

  it('answers a huge text at once and shows only its beginning', () => {
    const read = readLength('1'.repeat(1_000_000), mm);
    expect(read).toMatchObject({ ok: false, reason: 'unreadable' });
    expect(!read.ok && read.found.length).toBeLessThan(50);
  });

  it('never gives a length that is not finite, whatever is typed', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 12 }), (text) => {
        const read = readLength(text, inches);
        expect(read.ok ? Number.isFinite(read.mm) : read.expected.length > 0).toBe(true);
      }),
      { seed: 7, numRuns: 2000 },
    );
  });
});

describe('exactLength and exactDecimal', () => {
  it('read back to the very same number of mm', () => {
    const length = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(length, fc.constantFrom('mm', 'in'), (value, unit) => {
        const size = Math.abs(value) < 1e-9 ? 0 : value;
        expect(mmOf(exactLength(size, unit))).toBe(size);
        expect(mmOf(exactDecimal(size, 'mm') ?? '', mm)).toBe(size);
        const decimal = exactDecimal(size, unit);
        if (decimal !== undefined) expect(mmOf(decimal, { unit })).toBe(size);
      }),
      { seed: 11, numRuns: 1000 },
    );
  });

  it('speak as a rule does where that is exact', () => {
    expect(exactLength(0.79375, 'in')).toBe('1/32 in');
    expect(exactLength(1524, 'in')).toBe('60 in');
    expect(exactLength(1524, 'mm')).toBe('1524 mm');
    expect(exactLength(0.5, 'in')).toBe('0.5 mm');
    expect(exactDecimal(0.79375, 'in')).toBe('0.03125');
  });
});
