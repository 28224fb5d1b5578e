import { describe, expect, it } from 'vitest';
import { smallFigure } from '../../src/survey/smallFigure.ts';

describe('an uncertainty as a figure', () => {
  it.each([
    [0.1345, 'mm', '0.13 mm'],
    [1.26, 'mm', '1.3 mm'],
    [12.6, 'mm', '13 mm'],
    [0.0304, 'mm', '0.030 mm'],
    [0.0096, 'mm', '0.010 mm'],
    [0.00042, 'mm', 'under 0.001 mm'],
    [0.254, 'in', '0.010 in'],
    [0.2539, 'in', '0.010 in'],
    [0.14, 'in', '0.0055 in'],
    [0.0344, '°', '0.034°'],
    [0.0083, '°', '0.008°'],
    [0.26, '°', '0.26°'],
    [0, 'mm', '0.00 mm'],
  ] as const)('of %f has two digits at most in %s: %s', (value, unit, text) => {
    // GUM 7.2.6: at most two significant digits.
    expect(smallFigure(value, unit)).toBe(text);
  });
});
