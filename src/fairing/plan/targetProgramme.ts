import {
  leastDeviation,
  type AtMost,
  type Deviation,
  type Programme,
  type RowAt,
} from '../leastDeviation.ts';
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

/** A row of the programme that fixes the answer, by the place on its stretch that it speaks of; one that speaks of
 *  no place (how far the feather may turn) has none. */
export interface Holding {
  readonly stretch: number;
  readonly place?: number;
}

export type Solved =
  | {
      readonly ok: true;
      /** One a stretch. */
      readonly figures: readonly TargetFigures[];
      readonly cost: number;
      /** What moves the figures when the surface moves: see `figuresFor`. */
      readonly move: (surfaces: readonly ArrayLike<number>[]) => readonly TargetFigures[];
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
  return {
    ok: true,
    figures,
    cost: least.cost,
    move: mover(stretches, programme, least.corner, figures),
  };
}

/** The rows of the programme, in order: of each stretch each place; then the limits. */
export function programmeFor(
  stretches: readonly Stretch[],
  terms: Terms,
): Programme & { readonly limitPlaces: readonly Holding[] } {
  const unknowns = 1 + stretches.length;
  const { fills, grinds, most } = allowed(terms);
  const deviations: Deviation[] = [];
  const limits: AtMost[] = [];
  const limitPlaces: Holding[] = [];
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
      deviations.push({
        a,
        b,
        above: fills ? share : 0,
        below: grinds ? terms.grindWeight * share : 0,
      });
      if (at > feathered || i === last) return;
      limits.push({ a: a.map((v) => -v), b: most - b });
      limitPlaces.push({ stretch: s, place: i });
      if (fills) return;
      limits.push({ a, b });
      limitPlaces.push({ stretch: s, place: i });
    });
    const miss = turn * (x[last] - feathered);
    for (const sign of [1, -1]) {
      limits.push({ a: row(unknowns, s, sign, 0), b: miss });
      limitPlaces.push({ stretch: s });
    }
  });
  return { unknowns, deviations, limits, limitPlaces };
}

function allowed({ way, grindLimit }: Terms) {
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
  const { unknowns, limits = [], limitPlaces } = programmeFor(stretches, terms);
  const { fills, most } = allowed(terms);
  const relaxed = limits.map((limit, l) => {
    // Every place has its grind limit first and, where nothing may be filled, a second row after it.
    const { place } = limitPlaces[l];
    const second = !fills && l > 0 && limitPlaces[l - 1].place === place;
    return { ...limit, a: [...limit.a, place === undefined || second ? 0 : -1] };
  });
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

/** How the target follows its surface while the rows that fix it stay the same: linear in the surface. Where no
 *  corner fixes it, it stays as it is. */
function mover(
  stretches: readonly Stretch[],
  { deviations, limits = [], limitPlaces, unknowns }: ReturnType<typeof programmeFor>,
  corner: readonly RowAt[],
  figures: readonly TargetFigures[],
): (surfaces: readonly ArrayLike<number>[]) => readonly TargetFigures[] {
  const places: Holding[] = stretches.flatMap(({ x }, s) =>
    x.map((_, place) => ({ stretch: s, place })),
  );
  const rows = corner.map(({ of, index }) => {
    const own = of === 'deviations' ? deviations[index] : limits[index];
    const holding = of === 'deviations' ? places[index] : limitPlaces[index];
    // A limit may be its place's row turned round.
    const { stretch, place } = holding;
    const turned = of === 'limits' && place !== undefined && own.a[1 + stretch] < 0 ? -1 : 1;
    return { a: own.a.map((v) => turned * v), holding };
  });
  const inverse = rows.length === unknowns ? inverseOf(rows.map(({ a }) => a)) : undefined;
  if (inverse === undefined) return () => figures;
  return (surfaces) => {
    const shift = rows.map(({ holding: { stretch, place } }) => {
      if (place === undefined) return 0;
      const { z } = stretches[stretch];
      const moved = surfaces[stretch];
      const last = z.length - 1;
      return moved[place] - z[place] - (moved[last] - z[last]);
    });
    const by = inverse.map((line) => line.reduce((sum, v, j) => sum + v * shift[j], 0));
    return figures.map(({ miss, rise }, s) => ({ miss: miss + by[0], rise: rise + by[1 + s] }));
  };
}

function inverseOf(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const n = matrix.length;
  const work = matrix.map((line, i) => [...line, ...line.map((_, j) => (i === j ? 1 : 0))]);
  for (let j = 0; j < n; j++) {
    let pivot = j;
    for (let i = j; i < n; i++) {
      if (Math.abs(work[i][j]) > Math.abs(work[pivot][j])) pivot = i;
    }
    if (Math.abs(work[pivot][j]) < 1e-9) return undefined;
    [work[j], work[pivot]] = [work[pivot], work[j]];
    const by = work[j][j];
    work[j] = work[j].map((v) => v / by);
    for (let i = 0; i < n; i++) {
      if (i === j) continue;
      const factor = work[i][j];
      work[i] = work[i].map((v, k) => v - factor * work[j][k]);
    }
  }
  return work.map((line) => line.slice(n));
}
