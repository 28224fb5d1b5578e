import { beforeAll, describe, expect, it } from 'vitest';
import { keptOf, promiseTrial, type Foretold } from '../../study/promiseTrial.ts';

// Lines of known truth, seeded: four acts are foretold on each that is left undecided, and carried out on the truth.
// 36 lines; acts on one line share its luck, so that what luck may do is that of the lines and not of all acts.
describe('what is said to decide an undecided line', () => {
  const all: Foretold[] = [];
  beforeAll(() => {
    for (let line = 0, found = 0; found < 36; line++) {
      const trial = promiseTrial(20261128, line);
      all.push(...trial);
      if (trial.length > 0) found++;
    }
  }, 240_000);
  const shareOff = (some: readonly Foretold[]) => {
    const { promised, kept, luck } = keptOf(some);
    return (kept - promised) / luck;
  };

  it('does so as often as was said, within what luck may do', () => {
    // Four acts a line that stand or fall together would have twice the luck of as many lines.
    expect(Math.abs(shareOff(all))).toBeLessThan(2 * 2);
  });

  it('does so as often as was said of each act by itself', () => {
    for (const act of new Set(all.map((each) => each.act))) {
      expect(Math.abs(shareOff(all.filter((each) => each.act === act))), act).toBeLessThan(3);
    }
  });

  it('does so as often where it was said to be likely as where it was said not to be', () => {
    const likely = all.filter(({ promised }) => promised >= 0.5);
    const unlikely = all.filter(({ promised }) => promised >= 0.15 && promised < 0.5);
    expect(likely.length).toBeGreaterThan(30);
    expect(unlikely.length).toBeGreaterThan(30);
    expect(Math.abs(shareOff(likely))).toBeLessThan(4);
    expect(Math.abs(shareOff(unlikely))).toBeLessThan(4);
    expect(keptOf(likely).kept).toBeGreaterThan(keptOf(unlikely).kept + 0.2);
  });
});
