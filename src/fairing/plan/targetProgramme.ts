import { leastDeviation, type AtMost, type Deviation, type Programme } from '../leastDeviation.ts';
import type { Way } from './options.ts';
import { shapeAt, type Stretch, type TargetFigures } from './targetShape.ts';

/** What may be done to the surface, and what it costs. */
export interface Terms {
  readonly way: Way;
  /** Cost of a mm ground against a mm filled. */
  readonly grindWeight: number;
  /** Deepest that may be ground off, mm; none stated: nothing is. */
  readonly grindLimit?: number;
}

export type Solved =
  | {
      readonly ok: true;
      /** One a stretch. */
      readonly figures: readonly TargetFigures[];
      readonly cost: number;
    }
  | {
      readonly ok: false;
      /** What would have to come off, at least, where the limit binds most. */
      readonly stretch: number;
      readonly at: number;
      readonly needs: number;
      readonly allowed: number;
    };

/** The target of least work on one stretch, or on several that share one shape (port and starboard alike).
 *
 *  Unknown are the miss at the forward limit (shared, so that the shapes are alike) and each stretch's rise. The
 *  programme looks at every place of the assessed profile and not at the stations alone: the surface between two
 *  stations is to be brought to the target too, and a limit holds there as well. Places lie so close that between
 *  them the surface is taken as straight; as the target is straight too, what holds at the places holds everywhere
 *  (with a camber, to a ten-thousandth of its height).
 *
 *  Minimised: the mean over the stretches of depth filled, plus the grind weight times depth ground, each place
 *  counting for the length that it stands for. So it is the section of the work, in mm over the length.
 *  Held: aft of the feather, nothing above the target (fill only), nothing below it (grind only), nothing more than
 *  the limit above it (wherever grinding is allowed); the miss no larger than the feather's turn takes up. In the
 *  feather what may not be done is left: there the hull runs out into its untouched part.
 *  Least work without a grind limit is fill only.
 *
 *  Not possible only for grind only: then the least limit that would do is found, and where it binds. */
export function solveTarget(stretches: readonly Stretch[], terms: Terms): Solved {
  const programme = programmeFor(stretches, terms);
  const least = leastDeviation(programme);
  if (!least.ok) return hindered(stretches, terms);
  const figures = stretches.map((_, s) => ({ miss: least.at[0], rise: least.at[1 + s] }));
  return { ok: true, figures, cost: least.cost };
}

/** A limit of the programme: `grind` where it is what may come off that it holds. */
interface Held extends AtMost {
  readonly grind: boolean;
}

interface TargetProgramme extends Programme {
  readonly limits: readonly Held[];
}

/** The rows of the programme: unknown are the shared miss and then the rise of each stretch. */
export function programmeFor(stretches: readonly Stretch[], terms: Terms): TargetProgramme {
  const unknowns = 1 + stretches.length;
  const { fills, grinds, most } = allowed(terms);
  const deviations: Deviation[] = [];
  const limits: Held[] = [];
  stretches.forEach((stretch, s) => {
    const { x, z, feathered, turn } = stretch;
    const last = x.length - 1;
    const span = x[last] - x[0];
    x.forEach((at, i) => {
      const { base, perMiss, perRise } = shapeAt(stretch, i);
      const a = row(unknowns, s, perMiss, perRise);
      const b = z[i] - base;
      const length = (x[Math.min(i + 1, last)] - x[Math.max(i - 1, 0)]) / 2;
      const share = length / span / stretches.length;
      const below = grinds ? terms.grindWeight * share : 0;
      deviations.push({ a, b, above: fills ? share : 0, below });
      if (at > feathered || i === last) return;
      limits.push({ a: a.map((v) => -v), b: most - b, grind: true });
      if (!fills) limits.push({ a, b, grind: false });
    });
    const miss = turn * (x[last] - feathered);
    for (const sign of [1, -1])
      limits.push({ a: row(unknowns, s, sign, 0), b: miss, grind: false });
  });
  return { unknowns, deviations, limits };
}

/** What the terms come to: `most` is the deepest that may come off. */
export function allowed({ way, grindLimit }: Terms) {
  const grinds = way !== 'fill only' && grindLimit !== undefined;
  return { fills: way !== 'grind only', grinds, most: grinds ? grindLimit : 0 };
}

function row(unknowns: number, stretch: number, perMiss: number, perRise: number): number[] {
  const a = new Array<number>(unknowns).fill(0);
  a[0] = perMiss;
  a[1 + stretch] = perRise;
  return a;
}

/** Least excess over the grind limit, and the place that asks for it. */
function hindered(stretches: readonly Stretch[], terms: Terms): Solved {
  const { unknowns, limits } = programmeFor(stretches, terms);
  const { most } = allowed(terms);
  const relaxed = limits.map(({ a, b, grind }) => ({ a: [...a, grind ? -1 : 0], b }));
  const excess = [...new Array<number>(unknowns).fill(0), 1];
  const least = leastDeviation({
    unknowns: unknowns + 1,
    deviations: [{ a: excess, b: 0, above: 1, below: 1 }],
    limits: [...relaxed, { a: excess.map((v) => -v), b: 0 }],
  });
  if (!least.ok) throw new Error('a target within a relaxed grind limit expected');
  let worst = { stretch: 0, at: 0, needs: -Infinity };
  stretches.forEach((stretch, s) => {
    stretch.x.forEach((at, i) => {
      if (at > stretch.feathered) return;
      const { base, perMiss, perRise } = shapeAt(stretch, i);
      const target = base + least.at[0] * perMiss + least.at[1 + s] * perRise;
      const needs = stretch.z[i] - target;
      if (needs > worst.needs + 1e-9) worst = { stretch: s, at, needs };
    });
  });
  return { ok: false, ...worst, allowed: most };
}
