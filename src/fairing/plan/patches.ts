import { areaUnder } from '../simpson.ts';
import { depthInSteps } from '../workStep.ts';
import type { Patch } from './plan.ts';

/** An aft end of the readings no farther forward than this, mm, stands for the transom (a rounded edge, a first
 *  station just forward of it). House figure. */
const NEAR_TRANSOM = 100;
/** A pencil mark. */
const AT_TRANSOM = 1;
/** Depths below this, mm, are what arithmetic leaves over where the surface touches its target. */
const NONE = 1e-6;

/** Where along a line there is something to be put on: `depth` at x (0 or more), ascending places from the aft end of
 *  the readings to the forward limit. Stretches too thin to round to a step anywhere are left out. */
export function patchesOf(
  x: readonly number[],
  depth: readonly number[],
  step: number,
  most = Infinity,
): readonly Patch[] {
  const last = x.length - 1;
  const patches: Patch[] = [];
  for (let i = 0; i <= last; i++) {
    if (!(depth[i] > NONE)) continue;
    const from = i;
    while (i < last && depth[i + 1] > NONE) i++;
    let at = from;
    for (let k = from; k <= i; k++) if (depth[k] > depth[at] + 1e-9) at = k;
    const deepest = { at: x[at], depth: depthInSteps(depth[at], step, most) };
    if (deepest.depth.rounded === 0) continue;
    // The place before and after, where there is nothing any more: it runs out in between.
    const [start, end] = [Math.max(0, from - 1), Math.min(last, i + 1)];
    const places = x.slice(start, end + 1);
    const aft = from > 0 ? 'runs out' : aftEnd(x[0]);
    patches.push({
      from: x[start],
      to: x[end],
      deepest,
      aft,
      fore: end === last ? 'forward limit' : 'runs out',
      dam: aft !== 'runs out' && depthInSteps(depth[0], step, most).rounded > 0,
      section: areaUnder(places, depth.slice(start, end + 1)),
    });
  }
  return patches;
}

function aftEnd(x: number): Patch['aft'] {
  if (x <= AT_TRANSOM) return 'transom';
  return x <= NEAR_TRANSOM ? 'carried aft to the transom' : 'end of the readings';
}
