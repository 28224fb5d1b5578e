import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  measuredParts,
  showAngle,
  showLine,
  showMeasured,
  showPlace,
  showStretch,
  showTolerance,
  type WorkUnit,
} from '../../src/survey/figures.ts';
import { readLength } from '../../src/survey/readingText.ts';

const sizes = fc.integer({ min: -60_000, max: 60_000 }).map((n) => n / 1000);
const spreads = fc.integer({ min: 0, max: 4000 }).map((n) => n / 1000);
const units = fc.constantFrom<WorkUnit>('mm', 'in');
const fixed = { seed: 20261102, numRuns: 500 };

/** What a reader takes a shown length for, mm. */
function readBack(text: string, unit: WorkUnit): number {
  const read = readLength(text, { unit, decimal: '.' });
  if (!read.ok) throw new Error(`'${text}' does not read back: ${read.expected}`);
  return read.mm;
}

describe('a measured size', () => {
  it.each([
    [2.13, 0.12, 'mm', '2.1 mm ± 0.3 mm'],
    [2.13, 0.04, 'mm', '2.13 mm ± 0.08 mm'],
    [12.6, 0.7, 'mm', '13 mm ± 2 mm'],
    [2.15, 0.05, 'mm', '2.2 mm ± 0.1 mm'],
    [25.4 * (5 / 32), 0.1, 'in', '5/32 in ± 1/64 in'],
    [25.4 * (4 / 32), 0.42, 'in', '1/8 in ± 1/16 in'],
    [25.4 * (35 / 32), 0.5, 'in', '1 3/32 in ± 1/16 in'],
    [25.4 / 2, 1, 'in', '1/2 in ± 1/8 in'],
  ] as const)('of %f mm with u = %f mm reads in %s as %s', (mm, u, unit, shown) => {
    expect(showMeasured(mm, u, unit)).toBe(shown);
  });

  it('is shown with twice its standard uncertainty, rounded up and by less than one step', () => {
    fc.assert(
      fc.property(sizes, spreads, units, (mm, u, unit) => {
        const shown = readBack(measuredParts(mm, u, unit).spread, unit);
        expect(shown).toBeGreaterThanOrEqual(2 * u - 1e-6);
        const step = unit === 'in' ? 25.4 / 16 : 1;
        expect(shown).toBeLessThanOrEqual(2 * u + step + 1e-6);
      }),
      fixed,
    );
  });

  it('is never more precise than that: it has the decimals of its spread, and no more than that bears', () => {
    fc.assert(
      fc.property(sizes, spreads, (mm, u) => {
        const { size, spread } = measuredParts(mm, u, 'mm');
        const decimals = (text: string) => (text.split('.')[1] ?? '').length;
        expect(decimals(size)).toBe(decimals(spread));
        if (2 * u >= 1) expect(decimals(size)).toBe(0);
        else if (2 * u >= 0.1) expect(decimals(size)).toBe(1);
        else expect(decimals(size)).toBe(2);
      }),
      fixed,
    );
  });

  it('in inches has no parts finer than its spread, nor than a 64th', () => {
    fc.assert(
      fc.property(sizes, spreads, (mm, u) => {
        const { size, spread } = measuredParts(mm, u, 'in');
        const denominator = Number(/\/(\d+)$/.exec(size)?.[1] ?? 1);
        expect(denominator).toBeLessThanOrEqual(64);
        if (2 * u >= 25.4 / 16) expect(denominator).toBeLessThanOrEqual(16);
        else if (2 * u >= 25.4 / 32) expect(denominator).toBeLessThanOrEqual(32);
        expect(spread).not.toBe('0');
      }),
      fixed,
    );
  });

  it('shows inch fractions in lowest terms', () => {
    fc.assert(
      fc.property(sizes, spreads, (mm, u) => {
        const { size, spread } = measuredParts(mm, u, 'in');
        for (const text of [size, spread]) {
          const fraction = /(\d+)\/(\d+)$/.exec(text);
          if (!fraction) continue;
          // Denominators are powers of two, so lowest terms means an odd numerator below it.
          expect(Number(fraction[1]) % 2).toBe(1);
          expect(Number(fraction[1])).toBeLessThan(Number(fraction[2]));
        }
      }),
      fixed,
    );
  });

  it('never reads -0, and never ± 0: nothing measured is exact', () => {
    expect(showMeasured(-0.04, 0.2, 'mm')).toBe('0.0 mm ± 0.4 mm');
    expect(showMeasured(-0.1, 0.4, 'in')).toBe('0 in ± 1/16 in');
    expect(showMeasured(0, 0, 'mm')).toBe('0.00 mm ± 0.01 mm');
    expect(showMeasured(0, 0, 'in')).toBe('0 in ± 1/64 in');
    fc.assert(
      fc.property(sizes, spreads, units, (mm, u, unit) => {
        const { size, spread } = measuredParts(mm, u, unit);
        expect(size).not.toMatch(/^-0(\.0+)?$/);
        expect(readBack(spread, unit)).toBeGreaterThan(0);
      }),
      fixed,
    );
  });

  it('stays within half a step of the size', () => {
    fc.assert(
      fc.property(sizes, spreads, units, (mm, u, unit) => {
        const { size } = measuredParts(mm, u, unit);
        const coarsest = unit === 'in' ? 25.4 / 16 : 1;
        expect(Math.abs(readBack(size, unit) - mm)).toBeLessThanOrEqual(coarsest / 2 + 1e-9);
      }),
      fixed,
    );
  });
});

describe('a tolerance', () => {
  it('is an inch fraction where that is exact to a hundredth of a mm, else mm where it was set so, else decimal inches', () => {
    expect(showTolerance(25.4 / 16, 'in')).toBe('1/16 in');
    expect(showTolerance(1.59, 'in')).toBe('1/16 in');
    expect(showTolerance(1.6, 'in')).toBe('1.6 mm');
    expect(showTolerance(60 * 25.4, 'in')).toBe('60 in');
    expect(showTolerance(1.5, 'in')).toBe('1.5 mm');
    expect(showTolerance(1.524, 'in')).toBe('0.060 in');
  });

  it('in mm has the digits it was set with and no more', () => {
    expect(showTolerance(1.5, 'mm')).toBe('1.5 mm');
    expect(showTolerance(1500, 'mm')).toBe('1500 mm');
    expect(showTolerance(25.4 / 16, 'mm')).toBe('1.59 mm');
  });
});

describe('a place', () => {
  it('is shown to 10 mm or half an inch, never -0', () => {
    expect(showPlace(614, 'mm')).toBe('610 mm');
    expect(showPlace(-4, 'mm')).toBe('0 mm');
    expect(showPlace(14.3 * 25.4, 'in')).toBe('14 1/2 in');
    expect(showPlace(-1, 'in')).toBe('0 in');
  });

  it('and another make a stretch with one unit', () => {
    expect(showStretch(0, 838, 'mm')).toBe('0 to 840 mm');
    expect(showStretch(0, 838.2, 'in')).toBe('0 to 33 in');
  });
});

describe('an angle', () => {
  it('is rounded like its spread, which is twice the standard uncertainty rounded up', () => {
    expect(showAngle(0.349, 0.042)).toBe('0.35° ± 0.09°');
    expect(showAngle(-0.93, 0.06)).toBe('-0.9° ± 0.2°');
    expect(showAngle(12.4, 0.6)).toBe('12° ± 2°');
  });

  it('never reads -0, nor ± 0', () => {
    expect(showAngle(-0.02, 0.1)).toBe('0.0° ± 0.2°');
    expect(showAngle(-0.4, 1)).toBe('0° ± 2°');
    expect(showAngle(0, 0)).toBe('0.00° ± 0.01°');
  });
});

describe('a line', () => {
  it('is named by its side and its way from the keel', () => {
    expect(showLine('port', 450, 'mm')).toBe('port, 450 mm from the keel');
    expect(showLine('starboard', 17.5 * 25.4, 'in')).toBe('starboard, 17 1/2 in from the keel');
    expect(showLine('centre', 0, 'mm')).toBe('centre line');
  });
});
