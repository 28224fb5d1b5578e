import type { Accounts } from '../account.ts';
import { chords } from '../departures.ts';
import { PROVEN } from '../proven.ts';
import type { SystematicMode } from '../systematic.ts';
import {
  accountsOn,
  countPlaces,
  profilesOf,
  type AreaCounts,
  type AreaGrid,
  type AreaKind,
  type Way,
} from './areaCounts.ts';
import type { Panel } from './fitPanel.ts';
import { panelDraws, panelMean } from './panelDraws.ts';
import { breadth } from './panelMap.ts';
import { lineHeights } from './panelSpace.ts';
import { smoothedAway } from './smoothedAway.ts';

/** A hollow or a hump of a panel: places that hang together, along the lines or from line to line. */
export interface Area {
  readonly kind: AreaKind;
  readonly proven: boolean;
  /** Probability that some place of it is beyond the tolerance, all places of the panel at which it might be considered
   *  together. */
  readonly probability: number;
  /** Deepest, or highest, of it: size, standard uncertainty, where, and how the edge lies that shows it. */
  readonly size: number;
  readonly u: number;
  readonly at: { readonly x: number; readonly line: number };
  readonly shown: Way;
  /** Stations and places athwart that it reaches over. */
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  /** Indices of the lines on which it lies. */
  readonly lines: readonly number[];
  /** Its extent, in x's unit squared: each place stands for its share of the panel. */
  readonly extent: number;
}

export interface Areas {
  readonly areas: readonly Area[];
  /** Probability that nothing on the panel departs by more than the tolerance. */
  readonly fairness: number;
  readonly verdict: 'hollow' | 'hump' | 'hollow and hump' | 'fair' | 'undecided';
}

export interface PanelQuestion {
  readonly tolerance: number;
  /** Gauge length. */
  readonly over: number;
}

const PLACES = 36;
/** Pairs of draws, and where a probability must lie for the stage to be gone on to. */
const STAGES = [
  { pairs: 100, where: [0, 1] },
  { pairs: 400, where: [0.9, 0.99] },
] as const;

/** Hollows and humps as areas. A place of a line is hollow in a draw of the posterior where an edge no longer than the
 *  gauge length, laid fore and aft or athwart over it, shows more than the tolerance under it, the simplest account of
 *  that profile taken as for a line; the larger of the two counts. An area is a set of places, neighbours along a line or
 *  from line to line, of which most draws say the same kind. It is proven where at some place the mean stands above the
 *  tolerance by more of its own deviations than 97.5 % of the draws stray from their means anywhere on the panel: with so
 *  many places, some would pass for proven one by one. Fair is proven where in 97.5 % of the draws no place departs. */
export function areasOf(
  panel: Panel,
  [from, to]: readonly [number, number],
  { tolerance, over }: PanelQuestion,
  systematic: readonly SystematicMode[] = [],
): Areas {
  const { space } = panel;
  const m = space.lines.length;
  const on = chords(from, to, over, { count: PLACES, windows: 10 });
  const grid = { x: on.x, n: on.x.length, m };
  const heights = lineHeights(space, on.x);
  const profiles = profilesOf(panel, on, over);
  const kept: Accounts[][] = profiles.map(() => []);
  const z = new Float64Array(grid.n * m);
  const seen = (c: Float64Array): Accounts[] => {
    for (let i = 0; i < m; i++) z.set(heights(c, i), i * grid.n);
    return profiles.map((profile) => accountsOn(profile, z));
  };
  const mean = panelMean(panel);
  const left = smoothedAway(panel);
  const restored = seen(mean.map((c, j) => c + left[j]));
  const ofMean = seen(mean).map((own, p) => ({ mean: own, restored: restored[p] }));
  const look = (from: number, to: number) => {
    for (const c of panelDraws(panel, from, to, systematic)) {
      seen(c).forEach((own, p) => kept[p].push(own));
    }
    return countPlaces(profiles, kept, ofMean, grid, tolerance);
  };
  let counted = look(0, STAGES[0].pairs);
  let found = gather(counted, grid, space.lines);
  const [low, high] = STAGES[1].where;
  if ([counted.fairness, ...found.map((a) => a.probability)].some((p) => p > low && p < high)) {
    counted = look(STAGES[0].pairs, STAGES[1].pairs);
    found = gather(counted, grid, space.lines);
  }
  return { areas: found, fairness: counted.fairness, verdict: verdictOf(found, counted.fairness) };
}

function gather(counts: AreaCounts, { x, n, m }: AreaGrid, lines: Float64Array): readonly Area[] {
  const kindAt = (place: number): AreaKind | undefined => {
    const [hollow, hump] = [counts.hollow[place], counts.hump[place]];
    const fair = 1 - hollow - hump;
    if (fair >= hollow && fair >= hump) return undefined;
    return hollow >= hump ? 'hollow' : 'hump';
  };
  const kinds = Array.from({ length: n * m }, (_, place) => kindAt(place));
  const seen = new Uint8Array(n * m);
  const areas: Area[] = [];
  kinds.forEach((kind, start) => {
    if (kind === undefined || seen[start]) return;
    const places = [start];
    seen[start] = 1;
    for (const place of places) {
      const k = place % n;
      for (const [next, there] of [
        [place - 1, k > 0],
        [place + 1, k + 1 < n],
        [place - n, place >= n],
        [place + n, place + n < n * m],
      ] as const) {
        if (!there || seen[next] || kinds[next] !== kind) continue;
        seen[next] = 1;
        places.push(next);
      }
    }
    areas.push(areaOf(kind, places, counts, { x, n, m }, lines));
  });
  return areas.sort((a, b) => b.probability - a.probability || b.size - a.size);
}

function areaOf(
  kind: AreaKind,
  places: readonly number[],
  counts: AreaCounts,
  { x, n }: AreaGrid,
  lines: Float64Array,
): Area {
  const probability = Math.max(...places.map((place) => counts.surety[kind][place]));
  const most = counts.told(kind, places);
  const columns = places.map((place) => place % n);
  const on = [...new Set(places.map((place) => Math.floor(place / n)))].sort((a, b) => a - b);
  const half = (k: number, step: -1 | 1) => {
    const next = k + step;
    return next < 0 || next >= n ? x[k] : (x[k] + x[next]) / 2;
  };
  const extent = places.reduce((sum, place) => {
    const k = place % n;
    return sum + (half(k, 1) - half(k, -1)) * breadth(lines, Math.floor(place / n));
  }, 0);
  return {
    kind,
    proven: probability >= PROVEN,
    probability,
    size: most.size,
    u: most.u,
    at: { x: x[most.place % n], line: Math.floor(most.place / n) },
    shown: most.way,
    x: [half(Math.min(...columns), -1), half(Math.max(...columns), 1)],
    y: [lines[on[0]], lines[on[on.length - 1]]],
    lines: on,
    extent,
  };
}

function verdictOf(areas: readonly Area[], fairness: number): Areas['verdict'] {
  const has = (kind: AreaKind) => areas.some((area) => area.proven && area.kind === kind);
  if (has('hollow') && has('hump')) return 'hollow and hump';
  if (has('hollow')) return 'hollow';
  if (has('hump')) return 'hump';
  return fairness >= PROVEN ? 'fair' : 'undecided';
}
