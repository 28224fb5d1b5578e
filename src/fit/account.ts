import { hollow, hollowAndHump, hump, type Chords } from './departures.ts';
import { row } from './row.ts';
import { largestOf } from './largestOf.ts';

/** What counts of a profile's hollows and humps once the simplest account is taken, at each place. */
export interface Account {
  readonly told: 'hollows first' | 'humps first' | 'both as they stand';
  readonly hollow: Float64Array;
  readonly hump: Float64Array;
}

/** What each account would leave unexplained, and what it would count: the raw material of a choice. */
export interface Accounts {
  readonly hollow: Float64Array;
  readonly hump: Float64Array;
  /** Humps of the surface that a resting edge feels, with every hollow bridged. */
  readonly humpLeft: Float64Array;
  /** Hollows of the surface with every hump taken off. */
  readonly hollowLeft: Float64Array;
  /** The largest of each. */
  readonly largest: {
    readonly hollow: number;
    readonly hump: number;
    readonly humpLeft: number;
    readonly hollowLeft: number;
  };
}

/** z: height at each place of `on`. Mirroring z swaps hollow and hump to the last bit. */
export function accounts(z: Float64Array, on: Chords): Accounts {
  const n = z.length;
  const { hollow: h, hump: r } = hollowAndHump(z, on);
  const bridged = row(n);
  const shaved = row(n);
  for (let i = 0; i < n; i++) {
    bridged[i] = z[i] + h[i];
    shaved[i] = z[i] - r[i];
  }
  // Where the longest chord spans the line, the bridged surface is all convex: its one chord joins the ends.
  const spans = on.reach[0] === n - 1;
  const humpLeft = spans ? fromEnds(bridged, on, 1) : hump(bridged, on);
  const hollowLeft = spans ? fromEnds(shaved, on, -1) : hollow(shaved, on);
  return {
    hollow: h,
    hump: r,
    humpLeft,
    hollowLeft,
    largest: {
      hollow: largestOf(h),
      hump: largestOf(r),
      humpLeft: largestOf(humpLeft),
      hollowLeft: largestOf(hollowLeft),
    },
  };
}

/** Replaces heights by how far they stand off the chord between the ends. */
function fromEnds(z: Float64Array, { x }: Chords, sign: 1 | -1): Float64Array {
  const last = z.length - 1;
  const aft = z[0];
  const slope = (z[last] - aft) / (x[last] - x[0]);
  for (let i = 1; i < last; i++) {
    const off = sign * (z[i] - (aft + slope * (x[i] - x[0])));
    z[i] = off > 0 ? off : 0;
  }
  z[0] = 0;
  z[last] = 0;
  return z;
}

/** Differences that are none: between what two accounts leave, and between hollow and hump. */
export interface Rounding {
  readonly left: number;
  readonly size: number;
}

/** The simplest account comes first. A hollow in a straight bottom has shoulders on which an edge
 *  would rock, and nobody calls them rocker; a hump has dips beside it that nobody calls hook.
 *  - Hollows alone account for everything when, with every hollow bridged, no hump above the tolerance
 *    is left; humps alone likewise. Where both do, the one that leaves less counts; where they leave
 *    the same within `rounding.left`, hollow and hump both stand as they are.
 *  - Where neither does, both are there: the larger departure counts in full, and of the other kind
 *    what is left beside it. (Taking the larger first keeps the mirror exact.) Where they are
 *    equal within `rounding.size`, both stand as they are. */
export function simplestAccount(all: Accounts, tolerance: number, rounding: Rounding): Account {
  const { hollow: h, hump: r, humpLeft, hollowLeft } = all;
  const afterHollows = all.largest.humpLeft;
  const afterHumps = all.largest.hollowLeft;
  const hollowsDo = afterHollows <= tolerance;
  const humpsDo = afterHumps <= tolerance;
  let lead: number;
  if (hollowsDo && humpsDo) lead = clear(afterHumps - afterHollows, rounding.left);
  else if (hollowsDo !== humpsDo) lead = hollowsDo ? 1 : -1;
  else lead = clear(all.largest.hollow - all.largest.hump, rounding.size);
  if (lead > 0) return { told: 'hollows first', hollow: h, hump: humpLeft };
  if (lead < 0) return { told: 'humps first', hollow: hollowLeft, hump: r };
  return { told: 'both as they stand', hollow: h, hump: r };
}

function clear(difference: number, rounding: number): number {
  return Math.abs(difference) <= rounding ? 0 : difference;
}
