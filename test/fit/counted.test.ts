import { describe, expect, it } from 'vitest';
import type { Accounts } from '../../src/fit/account.ts';
import { countedIn, sizesTold, toldUnder } from '../../src/fit/counted.ts';

const T = 1.5;
/** A draw of one place: hollow and hump as they stand, and what either account leaves of the other. */
function draw(hollow: number, hump: number, humpLeft: number, hollowLeft: number): Accounts {
  const of = (v: number) => Float64Array.of(v);
  return {
    hollow: of(hollow),
    hump: of(hump),
    humpLeft: of(humpLeft),
    hollowLeft: of(hollowLeft),
    largest: { hollow, hump, humpLeft, hollowLeft },
  };
}
/** A hollow with shoulders: hollows alone account for it. */
const hook = draw(3, 1, 0.1, 2);
/** A hump with dips. */
const rocker = draw(1, 3, 2, 0.1);
const many = (count: number, of: Accounts) => Array.from({ length: count }, () => of);
const told = ({
  hollows,
  humps,
}: {
  hollows: readonly Float64Array[];
  humps: readonly Float64Array[];
}) => hollows.map((own, i) => [own[0], humps[i][0]]);

describe('what counts in each draw', () => {
  it('is the account that 97.5 % of the draws take, in every draw', () => {
    const counted = countedIn([...many(39, hook), rocker], T);
    expect(counted.typical).toBe('hollows first');
    expect(told(counted)).toEqual([...many(39, hook).map(() => [3, 0.1]), [1, 2]]);
    const other = countedIn([...many(39, rocker), hook], T);
    expect(other.typical).toBe('humps first');
    expect(told(other)).toEqual([...many(39, rocker).map(() => [0.1, 3]), [2, 1]]);
  });

  it('is each draw’s own where fewer take either', () => {
    const counted = countedIn([...many(38, hook), rocker, rocker], T);
    expect(counted.typical).toBe('both as they stand');
    expect(told(counted).slice(37)).toEqual([
      [3, 0.1],
      [0.1, 3],
      [0.1, 3],
    ]);
    expect(countedIn([...many(38, rocker), hook, hook], T).typical).toBe('both as they stand');
  });

  it('is both as they stand of a draw in which both are above the tolerance, where no account is proven', () => {
    const deep = draw(3, 2, 0.1, 2.5);
    const [first, second] = told(countedIn([deep, rocker], T));
    expect(first).toEqual([3, 2]);
    expect(second).toEqual([0.1, 3]);
    // Up to the tolerance the smaller does not count.
    expect(told(countedIn([draw(3, T, 0.1, 2.5), rocker], T))[0]).toEqual([3, 0.1]);
    // Where the account is proven, it is taken of such draws too.
    expect(told(countedIn([deep, deep], T))).toEqual([
      [3, 0.1],
      [3, 0.1],
    ]);
  });
});

describe('what is told of sizes', () => {
  it('is what counts under a proven account, and hollow and hump as they stand under none', () => {
    const proven = countedIn([hook, hook], T);
    expect(told(sizesTold([hook, hook], proven))).toEqual([
      [3, 0.1],
      [3, 0.1],
    ]);
    const open = countedIn([hook, rocker], T);
    expect(told(sizesTold([hook, rocker], open))).toEqual([
      [3, 1],
      [1, 3],
    ]);
  });

  it('is of the mean surface what the draws’ account leaves of it', () => {
    const of = (typical: Parameters<typeof toldUnder>[1]) => {
      const { hollow, hump } = toldUnder(draw(3, 1, 0.1, 2), typical);
      return [hollow[0], hump[0]];
    };
    expect(of('hollows first')).toEqual([3, 0.1]);
    expect(of('humps first')).toEqual([2, 1]);
    expect(of('both as they stand')).toEqual([3, 1]);
  });
});
