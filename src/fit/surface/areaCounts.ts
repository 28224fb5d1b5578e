import { accounts, type Accounts } from '../account.ts';
import { countedIn, sizesTold, toldUnder } from '../counted.ts';
import { chordsOn, type Chords } from '../departures.ts';
import { pairedMoments } from '../pairedMoments.ts';
import { row } from '../row.ts';
import { areaSize } from './areaSize.ts';
import type { Panel } from './fitPanel.ts';
import { readStretches, readThere } from './readStretches.ts';

export type AreaKind = 'hollow' | 'hump';
export type Way = 'fore and aft' | 'athwart';

/** Where a panel is looked at: every line at every station of x; place line·n + k. */
export interface AreaGrid {
  readonly x: Float64Array;
  readonly n: number;
  readonly m: number;
}

export interface ProfileOn {
  readonly way: Way;
  /** Its places in the grid. */
  readonly places: Int32Array;
  readonly chords: Chords;
}

/** Every line as far as it was read, and every station athwart over the lines that were read there. */
export function profilesOf(panel: Panel, on: Chords, over: number): readonly ProfileOn[] {
  const { lines } = panel.space;
  const n = on.x.length;
  const read = readStretches(panel);
  const stride = Math.max(1, Math.floor(Math.min(on.length, n) / 10));
  const along = Array.from(lines, (_, i): ProfileOn[] => {
    const inside = Array.from(on.x.keys()).filter((k) => readThere(read, i, on.x[k]));
    if (inside.length < 3) return [];
    const whole = inside.length === n;
    const own = whole
      ? on
      : chordsOn(
          inside.map((k) => on.x[k]),
          over,
          Math.min(stride, 3),
        );
    return [
      { way: 'fore and aft', places: Int32Array.from(inside, (k) => i * n + k), chords: own },
    ];
  }).flat();
  const athwart = Array.from(on.x, (x, k): ProfileOn[] => {
    const there = Array.from(lines.keys()).filter((i) => readThere(read, i, x));
    if (there.length < 3) return [];
    const own = chordsOn(
      there.map((i) => lines[i]),
      over,
    );
    return [{ way: 'athwart', places: Int32Array.from(there, (i) => i * n + k), chords: own }];
  }).flat();
  return [...along, ...athwart];
}

/** What one draw shows along a profile. `z`: its heights at every place of the grid. */
export function accountsOn({ places, chords }: ProfileOn, z: Float64Array): Accounts {
  const own = row(places.length);
  for (let at = 0; at < own.length; at++) own[at] = z[places[at]];
  return accounts(own, chords);
}

export interface AreaCounts {
  /** Share of the draws in which a place is of that kind. */
  readonly hollow: Float64Array;
  readonly hump: Float64Array;
  readonly fairness: number;
  /** How sure it is that a place is beyond the tolerance, as `sure`. */
  readonly surety: Readonly<Record<AreaKind, Float64Array>>;
  /** Mean size, as told, the way that shows the most. */
  readonly means: Readonly<Record<AreaKind, Float64Array>>;
  /** Where in an area the mean is largest, its size and uncertainty there, and that way. */
  readonly told: (
    kind: AreaKind,
    places: readonly number[],
  ) => { readonly place: number; readonly size: number; readonly u: number; readonly way: Way };
}

/** What a profile shows of the mean surface, and of that with what its smoothing leaves out put back. */
export interface OfMean {
  readonly mean: Accounts;
  readonly restored: Accounts;
}

/** `kept`: of every profile, what each draw shows. */
export function countPlaces(
  profiles: readonly ProfileOn[],
  kept: readonly (readonly Accounts[])[],
  ofMean: readonly OfMean[],
  { n, m }: AreaGrid,
  tolerance: number,
): AreaCounts {
  const total = kept[0].length;
  const size = n * m;
  const draws = {
    hollow: Array.from({ length: total }, () => new Float64Array(size)),
    hump: Array.from({ length: total }, () => new Float64Array(size)),
  };
  const means = { hollow: new Float64Array(size), hump: new Float64Array(size) };
  const from = { hollow: new Int32Array(size), hump: new Int32Array(size) };
  const told = profiles.map(({ places }, p) => {
    const counts = countedIn(kept[p], tolerance);
    const sizes = sizesTold(kept[p], counts);
    largest(draws.hollow, counts.hollows, places);
    largest(draws.hump, counts.humps, places);
    keepMost(means.hollow, from.hollow, sizes.hollows, places, p);
    keepMost(means.hump, from.hump, sizes.humps, places, p);
    return { hollow: sizes.hollows, hump: sizes.humps, typical: counts.typical };
  });
  return {
    ...sharesOf(draws, size, tolerance),
    surety: { hollow: sure(draws.hollow, tolerance), hump: sure(draws.hump, tolerance) },
    means,
    told(kind, area) {
      const place = area.reduce((a, b) => (means[kind][b] > means[kind][a] ? b : a));
      const p = from[kind][place];
      const { way, places } = profiles[p];
      const at = places.indexOf(place);
      const { typical } = told[p];
      const { mean, deviation } = pairedMoments(told[p][kind].map((draw) => draw[at]));
      const found = {
        mean,
        deviation,
        ofMean: toldUnder(ofMean[p].mean, typical)[kind][at],
        ofRestored: toldUnder(ofMean[p].restored, typical)[kind][at],
        sought: pairedMoments(draws[kind].map((draw) => most(draw, area))).mean,
      };
      return { place, way, ...areaSize(found) };
    },
  };
}

function most(draw: Float64Array, places: readonly number[]): number {
  let largest = 0;
  for (const place of places) if (draw[place] > largest) largest = draw[place];
  return largest;
}

/** The larger of what a draw shows at a place, one way or the other. */
function largest(
  into: readonly Float64Array[],
  shown: readonly Float64Array[],
  places: Int32Array,
): void {
  for (let d = 0; d < into.length; d++) {
    const row = into[d];
    const own = shown[d];
    for (let at = 0; at < places.length; at++) {
      const place = places[at];
      if (own[at] > row[place]) row[place] = own[at];
    }
  }
}

function keepMost(
  means: Float64Array,
  from: Int32Array,
  sizes: readonly Float64Array[],
  places: Int32Array,
  profile: number,
): void {
  const sums = new Float64Array(places.length);
  // A pair at a time, so that mirrored draws add up to the same whatever their order.
  for (let d = 0; d < sizes.length; d += 2) {
    for (let at = 0; at < sums.length; at++) sums[at] += sizes[d][at] + sizes[d + 1][at];
  }
  for (let at = 0; at < sums.length; at++) {
    const place = places[at];
    const mean = sums[at] / sizes.length;
    if (mean < means[place]) continue;
    means[place] = mean;
    from[place] = profile;
  }
}

function sharesOf(
  draws: Readonly<Record<AreaKind, readonly Float64Array[]>>,
  size: number,
  tolerance: number,
): Pick<AreaCounts, 'hollow' | 'hump' | 'fairness'> {
  const total = draws.hollow.length;
  const hollow = new Float64Array(size);
  const hump = new Float64Array(size);
  let fair = 0;
  for (let d = 0; d < total; d++) {
    const h = draws.hollow[d];
    const r = draws.hump[d];
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
  return { hollow, hump, fairness: fair / total };
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
  const strays = Float64Array.from(draws, (z) => {
    let most = -Infinity;
    for (const i of looked) most = Math.max(most, (z[i] - mean[i]) / Math.sqrt(deviation[i]));
    return most;
  });
  const surety = new Float64Array(n);
  for (const i of looked) {
    const margin = (mean[i] - tolerance) / Math.sqrt(deviation[i]);
    surety[i] = strays.filter((stray) => stray < margin).length / total;
  }
  return surety;
}
