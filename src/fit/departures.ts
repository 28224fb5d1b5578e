import { row } from './row.ts';

/** Where a profile is looked at: ascending places, for each place the last one that a chord no longer
 *  than the gauge length reaches, and where the windows begin in which chords are sought.
 *  Build once, use for every draw. */
export interface Chords {
  readonly x: Float64Array;
  readonly length: number;
  readonly reach: Int32Array;
  readonly starts: Int32Array;
}

/** Places from `from` to `to` such that chords of exactly the gauge length start and end on places:
 *  about `count` equal steps, a whole number of which make the gauge length where it is the shorter.
 *  `windows` a gauge length: how densely windows are laid; all of them when absent (exact on the places).
 *  Ten save most of the time and read low: by 1.1 % at most on waves of two gauge lengths and more,
 *  by 3.5 % on the worst smooth shapes tried (test/fit/departures.test.ts).
 *  Throws RangeError on an empty range or a length that is not positive. */
export function chords(
  from: number,
  to: number,
  length: number,
  { count = 100, windows }: { readonly count?: number; readonly windows?: number } = {},
): Chords {
  if (!(to > from)) throw new RangeError(`a range is expected, got ${from} to ${to}`);
  if (!(length > 0)) throw new RangeError(`a positive gauge length expected, got ${length}`);
  const span = to - from;
  const places: number[] = [];
  if (length >= span * (1 - 1e-9)) {
    for (let i = 0; i < count; i++) places.push(from + (span * i) / count);
    places.push(to);
    return chordsOn(places, length);
  }
  const steps = Math.max(2, Math.round((length / span) * count));
  const step = length / steps;
  for (let i = 0; from + i * step < to - 1e-9 * span; i++) places.push(from + i * step);
  const lastStart = to - length;
  if (!places.some((x) => Math.abs(x - lastStart) <= 1e-9 * span)) places.push(lastStart);
  places.push(to);
  places.sort((a, b) => a - b);
  const stride = windows === undefined ? 1 : Math.max(1, Math.floor(steps / windows));
  return chordsOn(places, length, stride);
}

/** The same on places of the caller's choosing: at least 2, strictly ascending. */
export function chordsOn(places: ArrayLike<number>, length: number, stride = 1): Chords {
  const x = Float64Array.from(places);
  const n = x.length;
  if (n < 2) throw new RangeError(`at least 2 places expected, got ${n}`);
  const slack = (x[n - 1] - x[0]) * 1e-9;
  const reach = new Int32Array(n);
  const all: number[] = [];
  let end = 0;
  for (let i = 0; i < n; i++) {
    if (i > 0 && !(x[i] > x[i - 1])) throw new RangeError('strictly ascending places expected');
    while (end + 1 < n && x[end + 1] - x[i] <= length + slack) end++;
    reach[i] = end;
    if (i === 0 || reach[i] > reach[i - 1]) all.push(i);
  }
  const starts = all.filter((_, k) => k % stride === 0 || k === all.length - 1);
  return { x, length, reach, starts: Int32Array.from(starts) };
}

/** Hollow depth at every place: how far the profile lies below the highest chord, no longer than the
 *  gauge length, that spans the place. z: height at each place, one unit; the result is in it, ≥ 0.
 *  What an edge of that length would show, wherever it is laid. */
export function hollow(z: Float64Array, on: Chords): Float64Array {
  makeRoom(z.length);
  return departure(z, on, turnsOf(z, on.x).hollow, 1);
}

/** Hump height at every place: how far the profile stands above the lowest chord no longer than the
 *  gauge length. The hollow of the mirrored profile, to the last bit. */
export function hump(z: Float64Array, on: Chords): Float64Array {
  makeRoom(z.length);
  return departure(z, on, turnsOf(z, on.x).hump, -1);
}

/** Both of one profile, in less time than one after the other. */
export function hollowAndHump(
  z: Float64Array,
  on: Chords,
): { readonly hollow: Float64Array; readonly hump: Float64Array } {
  makeRoom(z.length);
  const turns = turnsOf(z, on.x);
  return { hollow: departure(z, on, turns.hollow, 1), hump: departure(z, on, turns.hump, -1) };
}

/** Chords over a window are its hull (for hollows the least concave majorant). A hull facet of the whole
 *  profile that is no longer than the gauge length is already the best chord for the places under it;
 *  windows are looked at only where a facet is longer. Windows overlap, and mostly share their facets: one that was
 *  filled is not filled again. */
function departure(z: Float64Array, on: Chords, turns: Turns, sign: 1 | -1): Float64Array {
  const { x, reach, starts } = on;
  const n = x.length;
  const { corners, filledTo, long, firstAfter } = room;
  const out = row(n);
  const size = hullOf(z, x, 0, n - 1, turns, 0, sign);
  let longs = 0;
  for (let k = 0; k + 1 < size; k++) {
    const a = corners[k];
    const b = corners[k + 1];
    if (b <= reach[a]) fill(z, x, a, b, sign, out);
    else {
      long[longs++] = a;
      long[longs++] = b;
    }
  }
  if (longs === 0) return out;
  filledTo.fill(0, 0, n);
  for (let i = 0, k = 0; i < n; i++) {
    while (k < turns.count && turns.at[k] <= i) k++;
    firstAfter[i] = k;
  }
  let facet = 0;
  for (let w = 0; w < starts.length; w++) {
    const start = starts[w];
    while (facet < longs && long[facet + 1] <= start) facet += 2;
    if (facet === longs) break;
    if (reach[start] <= long[facet]) continue;
    const inWindow = hullOf(z, x, start, reach[start], turns, firstAfter[start], sign);
    for (let k = 0; k + 1 < inWindow; k++) {
      const a = corners[k];
      const b = corners[k + 1];
      if (filledTo[a] === b) continue;
      filledTo[a] = b;
      fill(z, x, a, b, sign, out);
    }
  }
  return out;
}

/** What a departure is worked out in, kept from one to the next: making arrays takes longer than filling them. */
let room = roomFor(128);

function roomFor(places: number) {
  return {
    corners: new Int32Array(places),
    /** The far end of the last facet that was filled from a place. */
    filledTo: new Int32Array(places),
    /** Both ends of every facet that is longer than the gauge length. */
    long: new Int32Array(2 * places),
    /** Places above the chord between their two neighbours, and below it. */
    above: new Int32Array(places),
    below: new Int32Array(places),
    /** For every place, which turn is the first after it. */
    firstAfter: new Int32Array(places),
  };
}

function makeRoom(places: number): void {
  if (room.corners.length < places) room = roomFor(2 * places);
}

/** The places that can be a corner of any hull that they are inside of: those that stand outside the chord
 *  between their neighbours. */
interface Turns {
  readonly at: Int32Array;
  readonly count: number;
}

/** Of the hulls that show hollows and of those that show humps. */
function turnsOf(
  z: Float64Array,
  x: Float64Array,
): { readonly hollow: Turns; readonly hump: Turns } {
  const { above, below } = room;
  const last = x.length - 1;
  let up = 0;
  let down = 0;
  for (let i = 1; i < last; i++) {
    const turn =
      (z[i] - z[i - 1]) * (x[i + 1] - x[i - 1]) - (z[i + 1] - z[i - 1]) * (x[i] - x[i - 1]);
    if (turn > 0) above[up++] = i;
    else if (turn < 0) below[down++] = i;
  }
  return { hollow: { at: above, count: up }, hump: { at: below, count: down } };
}

/** Leaves the corners of a stretch's hull in `room`; returns how many. `first`: the first turn after its start. */
function hullOf(
  z: Float64Array,
  x: Float64Array,
  from: number,
  to: number,
  { at, count }: Turns,
  first: number,
  sign: number,
): number {
  const { corners } = room;
  corners[0] = from;
  let top = 1;
  for (let k = first; ; k++) {
    const i = k < count && at[k] < to ? at[k] : to;
    while (top >= 2) {
      const a = corners[top - 2];
      const b = corners[top - 1];
      const turn = (z[b] - z[a]) * (x[i] - x[a]) - (z[i] - z[a]) * (x[b] - x[a]);
      if (sign * turn > 0) break;
      top--;
    }
    corners[top++] = i;
    if (i === to) return top;
  }
}

function fill(
  z: Float64Array,
  x: Float64Array,
  a: number,
  b: number,
  sign: number,
  out: Float64Array,
): void {
  const start = z[a];
  const aft = x[a];
  const slope = (z[b] - start) / (x[b] - aft);
  for (let i = a + 1; i < b; i++) {
    const depth = sign * (start + slope * (x[i] - aft) - z[i]);
    if (depth > out[i]) out[i] = depth;
  }
}

/** The chord that shows the departure at place i: its ends' indices and the depth under it.
 *  Tries every pair of ends, so that it also serves as a check of the hulls. */
export function deepestChord(
  z: Float64Array,
  on: Chords,
  i: number,
  sign: 1 | -1,
): { readonly from: number; readonly to: number; readonly depth: number } {
  const { x, reach } = on;
  let best = { from: i, to: i, depth: 0 };
  for (let a = 0; a < i; a++) {
    for (let b = i + 1; b <= reach[a]; b++) {
      const chord = (z[a] * (x[b] - x[i]) + z[b] * (x[i] - x[a])) / (x[b] - x[a]);
      const depth = sign * (chord - z[i]);
      if (depth > best.depth) best = { from: a, to: b, depth };
    }
  }
  return best;
}
