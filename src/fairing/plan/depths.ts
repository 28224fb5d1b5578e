import type { Terms } from './targetProgramme.ts';

/** What is done to the surface at each place of a stretch, mm: above 0 filled, below 0 ground, and never more than the
 *  terms allow. Aft of the feather that brings the surface to the target; in the feather what may not be done is left. */
export function depthsTo(
  surface: ArrayLike<number>,
  target: ArrayLike<number>,
  terms: Terms,
): Float64Array {
  const depths = new Float64Array(target.length);
  for (let i = 0; i < depths.length; i++) {
    depths[i] = allowedDepth(target[i] - surface[i], terms);
  }
  return depths;
}

/** As much of a depth as the terms allow: nothing filled by grinding only, nothing ground beyond the limit. */
export function allowedDepth(depth: number, { way, grindLimit }: Terms): number {
  if (depth > 0) return way === 'grind only' ? 0 : depth;
  const most = way === 'fill only' || grindLimit === undefined ? 0 : grindLimit;
  return Math.max(depth, -most);
}
