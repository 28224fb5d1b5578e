import { simplestAccount, type Account, type Accounts } from './account.ts';
import { PROVEN } from './proven.ts';

/** What counts in each draw, and the account that was taken of them. */
export interface Counted {
  readonly hollows: readonly Float64Array[];
  readonly humps: readonly Float64Array[];
  readonly typical: Account['told'];
}

/** What counts in each draw.
 *  An account is taken, of every draw, when it is proven: when at least `PROVEN` of the draws take it. Where
 *  neither is, the readings do not tell which one holds; then each draw speaks for itself, and one whose
 *  hollow and hump are both above the tolerance lets both stand as they are, since it departs whichever
 *  account is taken. Mirroring every draw swaps hollows and humps. */
export function countedIn(all: readonly Accounts[], tolerance: number): Counted {
  const none = { left: 1e-9 * tolerance, size: 1e-9 * tolerance };
  const chosen = all.map((a) => simplestAccount(a, tolerance, none));
  const proven = (told: Account['told']): boolean =>
    chosen.filter((c) => c.told === told).length >= PROVEN * chosen.length;
  if (proven('hollows first')) {
    return {
      hollows: all.map((a) => a.hollow),
      humps: all.map((a) => a.humpLeft),
      typical: 'hollows first',
    };
  }
  if (proven('humps first')) {
    return {
      hollows: all.map((a) => a.hollowLeft),
      humps: all.map((a) => a.hump),
      typical: 'humps first',
    };
  }
  const counts = chosen.map((c, k) => {
    const { largest, hollow, hump } = all[k];
    return Math.min(largest.hollow, largest.hump) > tolerance ? { hollow, hump } : c;
  });
  return {
    hollows: counts.map((c) => c.hollow),
    humps: counts.map((c) => c.hump),
    typical: 'both as they stand',
  };
}

/** The departures whose size is told: those of the account that was taken, and where none was, hollow and
 *  hump as they stand. */
export function sizesTold(all: readonly Accounts[], counted: Counted): Omit<Counted, 'typical'> {
  if (counted.typical !== 'both as they stand') return counted;
  return { hollows: all.map((a) => a.hollow), humps: all.map((a) => a.hump) };
}

/** The same of a profile that is no draw, under the account that was taken of the draws. */
export function toldUnder(
  { hollow, hump, hollowLeft, humpLeft }: Accounts,
  typical: Counted['typical'],
): { readonly hollow: Float64Array; readonly hump: Float64Array } {
  if (typical === 'hollows first') return { hollow, hump: humpLeft };
  if (typical === 'humps first') return { hollow: hollowLeft, hump };
  return { hollow, hump };
}
