import { describe, expect, it } from 'vitest';

import { startingStations } from '../../src/survey/startingStations.ts';

const texts = (limit: number, unit: 'mm' | 'in') =>
  startingStations(limit, unit).map(({ text }) => text);

describe('startingStations', () => {
  // Common practice, no source: every 2 to 3 in over the last 18 in, then every 6 in.
  it('sets every 3 in to 18 in, then every 6 in to the limit', () => {
    expect(texts(60 * 25.4, 'in')).toEqual(
      [0, 3, 6, 9, 12, 15, 18, 24, 30, 36, 42, 48, 54, 60].map((at) => `${String(at)} in`),
    );
  });

  it('sets every 75 mm to 450, then every 150', () => {
    expect(startingStations(800).map(({ mm }) => mm)).toEqual([
      0, 75, 150, 225, 300, 375, 450, 600, 750, 800,
    ]);
  });

  it('ends at a limit that is no whole step, and keeps its length exactly', () => {
    const last = startingStations(1500, 'in').at(-1);
    expect(last).toEqual({ mm: 1500, text: '59.055 in' });
  });

  it('refuses a limit that is not ahead of the transom', () => {
    for (const limit of [0, -1, NaN, Infinity]) {
      expect(() => startingStations(limit)).toThrow(RangeError);
    }
  });
});
