import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { startingLines } from '../../src/survey/startingLines.ts';

describe('startingLines', () => {
  it('sets three lines a side where the beam is not known', () => {
    expect(startingLines(undefined, 'in').map(({ name }) => name)).toEqual([
      'P8in',
      'P16in',
      'P24in',
      'S8in',
      'S16in',
      'S24in',
    ]);
    expect(startingLines()[0]).toEqual({
      side: 'port',
      offset: { mm: 200, text: '200 mm' },
      name: 'P200mm',
    });
  });

  // Common practice, no source: the same offsets port and starboard, inboard of the chine.
  it('sets the same offsets port and starboard, apart from one another, between keel and chine', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 500, max: 6000, noNaN: true }),
        fc.constantFrom('mm', 'in'),
        (beam, unit) => {
          const lines = startingLines(beam, unit);
          const offsets = (side: string) =>
            lines.filter((line) => line.side === side).map((line) => line.offset.mm);
          expect(offsets('port')).toEqual(offsets('starboard'));
          const [first, second, third] = offsets('port');
          expect(first).toBeGreaterThan(0);
          expect(second).toBeGreaterThan(first);
          expect(third).toBeGreaterThan(second);
          expect(third).toBeLessThan(beam / 2);
        },
      ),
      { seed: 20260504 },
    );
  });

  it('refuses a beam that no planing hull has', () => {
    for (const beam of [0, -1, NaN, Infinity, 400]) {
      expect(() => startingLines(beam)).toThrow(RangeError);
    }
  });
});
