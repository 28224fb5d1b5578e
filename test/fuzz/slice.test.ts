import { describe, expect, it, vi } from 'vitest';
import { casesOf } from '../../fuzz/cases.ts';
import { diceOf } from '../../fuzz/dice.ts';

// The machine may be busy.
vi.setConfig({ testTimeout: 60_000 });

/** The first of those that `npm run fuzz` makes 10,000 of. */
const cases = casesOf(20261128);
const FEW = Array.from({ length: 60 }, (_, nth) => nth);

describe('damaged files', () => {
  it('of readings are read without a place of a gap lost in silence', () => {
    for (const nth of FEW) {
      const { made, attempt } = cases.csv(nth);
      expect(attempt, `${nth}: ${made}`).not.toThrow();
    }
  });

  it('of entries are read without a line lost in silence, and whatever is kept can be folded and judged', () => {
    for (const nth of FEW) {
      const { made, attempt } = cases.entries(nth);
      expect(attempt, `${nth}: ${made}`).not.toThrow();
    }
  });

  it('are the same for the same seed, and others for another', () => {
    expect(casesOf(20261128).csv(3).text).toBe(cases.csv(3).text);
    const other = casesOf(1);
    const texts = FEW.map((nth) => other.csv(nth).text === cases.csv(nth).text);
    expect(texts.filter((same) => same).length).toBeLessThan(10);
    const rolls = (seed: number) => Array.from({ length: 20 }, () => diceOf(seed, 0).below(1e6));
    expect(rolls(1)).not.toEqual(rolls(2));
  });
});
