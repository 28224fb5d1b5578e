import type { Counted } from './counted.ts';
import { largestOf } from './largestOf.ts';
import { pairedMoments } from './pairedMoments.ts';
import type { Section } from './sections.ts';

/** A departure that keeps from the tolerance by this many times its spread is decided: 3 of 100,000 normal draws lie
 *  farther out on that side. */
const FAR = 4;

/** Whether what a few draws say cannot be changed by more of them: all of them agree on every section and on the line, every
 *  hook and rocker stands far above the tolerance somewhere, and a kind that nothing leans to keeps far below
 *  it everywhere. x: the places of the draws, which come in mirrored pairs. */
export function farFrom(
  tolerance: number,
  { hollows, humps }: Counted,
  { sections, fairness }: { readonly sections: readonly Section[]; readonly fairness: number },
  x: Float64Array,
): boolean {
  const agreed = (p: number) => p === 0 || p === 1;
  if (!agreed(fairness) || !sections.every(({ probability }) => agreed(probability))) return false;
  const kinds = [
    { leaning: 'hook', sizes: hollows },
    { leaning: 'rocker', sizes: humps },
  ] as const;
  return kinds.every(({ leaning, sizes }) => {
    const departing = sections.filter((s) => s.leaning === leaning);
    if (departing.length > 0)
      return departing.every((s) => isFarAbove(sizes, x, s, tolerance, FAR));
    const { mean, deviation } = pairedMoments(sizes.map((draw) => largestOf(draw)));
    return mean + FAR * deviation < tolerance;
  });
}

/** Whether the draws stand above the tolerance by `far` times their spread at some place of a section. */
export function isFarAbove(
  sizes: readonly Float64Array[],
  x: Float64Array,
  { from, to }: Pick<Section, 'from' | 'to'>,
  tolerance: number,
  far: number,
): boolean {
  for (let i = 0; i < x.length; i++) {
    if (x[i] < from || x[i] > to) continue;
    const { mean, deviation } = pairedMoments(sizes.map((draw) => draw[i]));
    if (mean - far * deviation > tolerance) return true;
  }
  return false;
}
