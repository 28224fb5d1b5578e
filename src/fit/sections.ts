import type { Counted } from './counted.ts';

/** A longest stretch of one class. `class` is what is shown: `undecided` where nothing is proven,
 *  and `leaning` then says what it most likely is. */
export interface Section {
  readonly from: number;
  readonly to: number;
  readonly class: 'hook' | 'rocker' | 'fair' | 'undecided';
  readonly leaning: 'hook' | 'rocker' | 'fair';
  readonly proven: boolean;
  /** Probability of the class it leans to. */
  readonly probability: number;
}

type Class = Section['leaning'];

/** Sections from what counts in each draw, at the places x.
 *  A place has the class that most draws give it; a section is a longest run of one class.
 *  Hook and rocker are proven where at some place of the section the probability of that class reaches
 *  `proven`. Fair is proven where the probability that no departure above the tolerance has its peak
 *  within the section does (so that the blurred end of a neighbouring hook does not spoil it). */
export function sectionsOf(
  { hollows, humps }: Counted,
  x: ArrayLike<number>,
  tolerance: number,
  proven: number,
): { readonly sections: readonly Section[]; readonly fairness: number } {
  const n = x.length;
  const total = hollows.length;
  const hooked = new Float64Array(n);
  const rockered = new Float64Array(n);
  const peaks: number[][] = [];
  for (let k = 0; k < total; k++) {
    const h = hollows[k];
    const r = humps[k];
    const found: number[] = [];
    let peak = -1;
    let height = 0;
    for (let i = 0; i < n; i++) {
      const hook = h[i] > tolerance && h[i] >= r[i];
      const rocker = r[i] > tolerance && r[i] > h[i];
      if (hook) hooked[i]++;
      if (rocker) rockered[i]++;
      const size = hook ? h[i] : rocker ? r[i] : 0;
      if (size > height) {
        height = size;
        peak = i;
      }
      if (peak >= 0 && (size === 0 || i === n - 1)) {
        found.push(peak);
        peak = -1;
        height = 0;
      }
    }
    peaks.push(found);
  }
  const fairness = peaks.filter((p) => p.length === 0).length / total;
  const classAt = (i: number): Class => {
    const hook = hooked[i];
    const rocker = rockered[i];
    const fair = total - hook - rocker;
    if (fair >= hook && fair >= rocker) return 'fair';
    return hook >= rocker ? 'hook' : 'rocker';
  };
  const sections: Section[] = [];
  for (let start = 0; start < n;) {
    const leaning = classAt(start);
    let end = start;
    while (end + 1 < n && classAt(end + 1) === leaning) end++;
    const probability = probabilityOf(leaning, start, end);
    const isProven = probability >= proven;
    sections.push({
      from: start === 0 ? x[0] : (x[start - 1] + x[start]) / 2,
      to: end === n - 1 ? x[end] : (x[end] + x[end + 1]) / 2,
      class: isProven ? leaning : 'undecided',
      leaning,
      proven: isProven,
      probability,
    });
    start = end + 1;
  }
  return { sections, fairness };

  function probabilityOf(leaning: Class, start: number, end: number): number {
    if (leaning === 'fair') {
      const spoiled = peaks.filter((p) => p.some((i) => i >= start && i <= end)).length;
      return 1 - spoiled / total;
    }
    const counts = leaning === 'hook' ? hooked : rockered;
    return Math.max(...counts.subarray(start, end + 1)) / total;
  }
}
