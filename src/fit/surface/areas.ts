import { accounts, type Accounts } from '../account.ts';
import { countedIn, sizesTold } from '../counted.ts';
import { chords, chordsOn, type Chords } from '../departures.ts';
import { pairedMoments } from '../pairedMoments.ts';
import { PROVEN } from '../proven.ts';
import type { SystematicMode } from '../systematic.ts';
import type { Panel } from './fitPanel.ts';
import { panelDraws } from './panelDraws.ts';
import { breadth } from './panelMap.ts';
import { lineHeights } from './panelSpace.ts';
import { readStretches, readThere } from './readStretches.ts';

/** A hollow or a hump of a panel: places that hang together, along the lines or from line to line. */
export interface Area {
  readonly kind: 'hollow' | 'hump';
  readonly proven: boolean;
  /** Probability that some place of it is beyond the tolerance, all places of the panel at which it might be considered
   *  together. */
  readonly probability: number;
  /** Deepest, or highest, of it: size, standard uncertainty, where, and how the edge lies that shows it. */
  readonly size: number;
  readonly u: number;
  readonly at: { readonly x: number; readonly line: number };
  readonly shown: 'fore and aft' | 'athwart';
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
  const look = (from: number, to: number) => {
    for (const c of panelDraws(panel, from, to, systematic)) {
      const z = Array.from({ length: m }, (_, i) => heights(c, i));
      profiles.forEach(({ places, chords: own }, p) => {
        kept[p].push(
          accounts(
            Float64Array.from(places, ([i, k]) => z[i][k]),
            own,
          ),
        );
      });
    }
    return countPlaces(profiles, kept, grid, tolerance);
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

interface ProfileOn {
  readonly way: Area['shown'];
  /** [line, index of x] of each place. */
  readonly places: readonly (readonly [number, number])[];
  readonly chords: Chords;
}

/** Every line as far as it was read, and every station athwart over the lines that were read there. */
function profilesOf(panel: Panel, on: Chords, over: number): readonly ProfileOn[] {
  const { lines } = panel.space;
  const read = readStretches(panel);
  const stride = Math.max(1, Math.floor(Math.min(on.length, on.x.length) / 10));
  const along = Array.from(lines, (_, i): ProfileOn[] => {
    const inside = Array.from(on.x.keys()).filter((k) => readThere(read, i, on.x[k]));
    if (inside.length < 3) return [];
    const whole = inside.length === on.x.length;
    const own = whole
      ? on
      : chordsOn(
          inside.map((k) => on.x[k]),
          over,
          Math.min(stride, 3),
        );
    return [{ way: 'fore and aft', places: inside.map((k) => [i, k] as const), chords: own }];
  }).flat();
  const athwart = Array.from(on.x, (x, k): ProfileOn[] => {
    const there = Array.from(lines.keys()).filter((i) => readThere(read, i, x));
    if (there.length < 3) return [];
    const own = chordsOn(
      there.map((i) => lines[i]),
      over,
    );
    return [{ way: 'athwart', places: there.map((i) => [i, k] as const), chords: own }];
  }).flat();
  return [...along, ...athwart];
}

interface Grid {
  readonly x: Float64Array;
  readonly n: number;
  readonly m: number;
}

interface Counts {
  readonly hollow: Float64Array;
  readonly hump: Float64Array;
  readonly fairness: number;
  /** How sure it is that a place is beyond the tolerance, as `sure`. */
  readonly surety: Readonly<Record<Area['kind'], Float64Array>>;
  /** Mean size, as told, the way that shows the most. */
  readonly means: Readonly<Record<Area['kind'], Float64Array>>;
  /** Its size and uncertainty at a place, and that way. */
  readonly told: (
    kind: Area['kind'],
    place: number,
  ) => { readonly size: number; readonly u: number; readonly way: Area['shown'] };
}

function countPlaces(
  profiles: readonly ProfileOn[],
  kept: readonly (readonly Accounts[])[],
  { n, m }: Grid,
  tolerance: number,
): Counts {
  const total = kept[0].length;
  const counted = kept.map((all) => {
    const counts = countedIn(all, tolerance);
    return { counts, told: sizesTold(all, counts) };
  });
  const size = n * m;
  const hollow = new Float64Array(size);
  const hump = new Float64Array(size);
  const all = { hollow: [] as Float64Array[], hump: [] as Float64Array[] };
  let fair = 0;
  for (let d = 0; d < total; d++) {
    const h = new Float64Array(size);
    const r = new Float64Array(size);
    all.hollow.push(h);
    all.hump.push(r);
    profiles.forEach(({ places }, p) => {
      const { hollows, humps } = counted[p].counts;
      places.forEach(([i, k], at) => {
        const place = i * n + k;
        h[place] = Math.max(h[place], hollows[d][at]);
        r[place] = Math.max(r[place], humps[d][at]);
      });
    });
    let departs = false;
    for (let place = 0; place < size; place++) {
      if (h[place] > tolerance && h[place] >= r[place]) hollow[place]++;
      else if (r[place] > tolerance) hump[place]++;
      else continue;
      departs = true;
    }
    if (!departs) fair++;
  }
  for (let place = 0; place < size; place++) {
    hollow[place] /= total;
    hump[place] /= total;
  }
  const means = { hollow: new Float64Array(size), hump: new Float64Array(size) };
  const from = { hollow: new Int32Array(size), hump: new Int32Array(size) };
  const sizesOf = (kind: Area['kind'], p: number, at: number): number[] => {
    const { hollows, humps } = counted[p].told;
    return (kind === 'hollow' ? hollows : humps).map((draw) => draw[at]);
  };
  profiles.forEach(({ places }, p) => {
    places.forEach(([i, k], at) => {
      const place = i * n + k;
      for (const kind of ['hollow', 'hump'] as const) {
        const draws = kind === 'hollow' ? counted[p].told.hollows : counted[p].told.humps;
        let sum = 0;
        for (let d = 0; d < total; d += 2) sum += draws[d][at] + draws[d + 1][at];
        if (sum < means[kind][place] * total) continue;
        means[kind][place] = sum / total;
        from[kind][place] = p;
      }
    });
  });
  return {
    hollow,
    hump,
    fairness: fair / total,
    surety: { hollow: sure(all.hollow, tolerance), hump: sure(all.hump, tolerance) },
    means,
    told(kind, place) {
      const p = from[kind][place];
      const { way, places } = profiles[p];
      const at = places.findIndex(([i, k]) => i * n + k === place);
      const { mean, deviation } = pairedMoments(sizesOf(kind, p, at));
      return { size: mean, u: deviation, way };
    },
  };
}

/** Draws in which a place must be beyond the tolerance for it to be looked at. */
const LOOKED_AT = 0.05;

/** For each place, the share of draws that nowhere stray as many deviations above their means as the mean stands above
 *  the tolerance there: a lower bound that holds at all places together. */
function sure(draws: readonly Float64Array[], tolerance: number): Float64Array {
  const total = draws.length;
  const n = draws[0].length;
  const mean = new Float64Array(n);
  const deviation = new Float64Array(n);
  const beyond = new Float64Array(n);
  for (const z of draws) {
    for (let i = 0; i < n; i++) {
      mean[i] += z[i] / total;
      if (z[i] > tolerance) beyond[i] += 1 / total;
    }
  }
  for (const z of draws) {
    for (let i = 0; i < n; i++) deviation[i] += (z[i] - mean[i]) ** 2 / (total - 1);
  }
  const looked = Array.from(beyond.keys()).filter((i) => beyond[i] > LOOKED_AT && deviation[i] > 0);
  const strays = Float64Array.from(draws, (z) =>
    Math.max(...looked.map((i) => (z[i] - mean[i]) / Math.sqrt(deviation[i]))),
  ).sort();
  const surety = new Float64Array(n);
  for (const i of looked) {
    const margin = (mean[i] - tolerance) / Math.sqrt(deviation[i]);
    surety[i] = strays.filter((stray) => stray < margin).length / total;
  }
  return surety;
}

function gather(counts: Counts, { x, n, m }: Grid, lines: Float64Array): readonly Area[] {
  const kindAt = (place: number): Area['kind'] | undefined => {
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
  kind: Area['kind'],
  places: readonly number[],
  counts: Counts,
  { x, n }: Grid,
  lines: Float64Array,
): Area {
  const probability = Math.max(...places.map((place) => counts.surety[kind][place]));
  const means = counts.means[kind];
  const place = places.reduce((a, b) => (means[b] > means[a] ? b : a));
  const most = { place, ...counts.told(kind, place) };
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
  const has = (kind: Area['kind']) => areas.some((area) => area.proven && area.kind === kind);
  if (has('hollow') && has('hump')) return 'hollow and hump';
  if (has('hollow')) return 'hollow';
  if (has('hump')) return 'hump';
  return fairness >= PROVEN ? 'fair' : 'undecided';
}
