import { simplestAccount, type Account, type Accounts } from './account.ts';
import { pairedMoments } from './pairedMoments.ts';

/** What counts in each draw, and the account that most draws take. */
export interface Counted {
  readonly hollows: readonly Float64Array[];
  readonly humps: readonly Float64Array[];
  readonly typical: Account['told'];
}

/** Two accounts that leave the same within what the readings can tell are equal, and so are a hollow and a
 *  hump: both stand. */
export function countedIn(all: readonly Accounts[], tolerance: number): Counted {
  const roundingOf = (difference: (a: Accounts) => number): number => {
    const spread = pairedMoments(all.map(difference));
    return Math.abs(spread.mean) <= spread.deviation ? Infinity : 1e-9 * tolerance;
  };
  const rounding = {
    left: roundingOf((a) => a.largest.hollowLeft - a.largest.humpLeft),
    size: roundingOf((a) => a.largest.hollow - a.largest.hump),
  };
  const chosen = all.map((a) => simplestAccount(a, tolerance, rounding));
  const count = (told: Account['told']) => chosen.filter((c) => c.told === told).length;
  const hollows = count('hollows first');
  const humps = count('humps first');
  const asTheyStand = chosen.length - hollows - humps;
  const typical =
    asTheyStand >= Math.max(hollows, humps) || hollows === humps
      ? 'both as they stand'
      : hollows > humps
        ? 'hollows first'
        : 'humps first';
  return { hollows: chosen.map((c) => c.hollow), humps: chosen.map((c) => c.hump), typical };
}
