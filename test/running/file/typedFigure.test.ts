import { describe, expect, test } from 'vitest';
import { readTypedFigure } from '../../../src/running/file/typedFigure.ts';

describe('a figure as a person types it', () => {
  test('has the unit of the field written into it where none was typed', () => {
    const read = readTypedFigure('mass', '565', 'lb');
    expect(read).toMatchObject({ is: 'figure', figure: { text: '565 lb' } });
    // NIST SP 811 (2008), appendix B.8: 1 lb = 0.45359237 kg exactly.
    expect(read.is === 'figure' && read.figure.kg).toBeCloseTo(565 * 0.45359237, 10);
  });

  test.each([
    ['mass', '540,5 to 590,5', 'kg', { kg: { low: 540.5, high: 590.5 } }],
    ['angle', '20,5', '', { degrees: 20.5 }],
    ['length', '84,5', 'mm', { mm: 84.5 }],
  ] as const)('may have a comma for its decimal mark: %s %s', (kind, typed, unit, figure) => {
    expect(readTypedFigure(kind, typed, unit)).toMatchObject({ is: 'figure', figure });
  });

  test('is refused where its comma may mark thousands', () => {
    expect(readTypedFigure('mass', '1,500', 'kg').is).toBe('problem');
    expect(readTypedFigure('mass', '0,500', 'kg').is).toBe('figure');
  });

  test.each([
    ['540 to 590', { low: 540, high: 590 }, '540 to 590 kg'],
    ['565 ± 10', { low: 555, high: 575 }, '565 ± 10 kg'],
    [
      '540 to 590, likeliest 580',
      { low: 540, high: 590, likeliest: 580 },
      '540 to 590 kg, likeliest 580',
    ],
    [
      '540 to 590 kg, likeliest 580',
      { low: 540, high: 590, likeliest: 580 },
      '540 to 590 kg, likeliest 580',
    ],
  ])('may be a range: %s', (typed, kg, text) => {
    expect(readTypedFigure('mass', typed, 'kg')).toEqual({
      is: 'figure',
      figure: { kg, text },
    });
  });

  test('of a length may be a fraction, and lie aft of the transom', () => {
    expect(readTypedFigure('length', '−8 1/2', 'in')).toEqual({
      is: 'figure',
      figure: { mm: -215.9, text: '-8 1/2 in' },
    });
  });

  test('of an angle is in degrees, with or without the sign', () => {
    const figure = { degrees: 20, text: '20°' };
    for (const typed of ['20', '20°', '20 degrees']) {
      expect(readTypedFigure('angle', typed, '°')).toEqual({ is: 'figure', figure });
    }
  });

  test('is absent where nothing stands, never 0', () => {
    expect(readTypedFigure('speed', ' ', 'kn')).toEqual({ is: 'absent' });
  });

  test.each(['heavy', '5,510 lb', '590 to 540', '20 kn'])('is a problem: %s', (typed) => {
    expect(readTypedFigure('mass', typed, 'lb')).toMatchObject({ is: 'problem', found: typed });
  });
});
