import type { ProfilePoint } from '../fit/judge.ts';
import { straightened } from '../fit/straightened.ts';

/** Places on the common stretch that the lines are taken off over. */
const PLACES = 61;

/** Profiles laid on one another: each is known up to a straight line, so that of each its least-squares line over the
 *  stretch that all have in common is taken off. Left as they are where they have no stretch in common.
 *  Each: from aft forward, two places or more. */
export function levelled(
  profiles: readonly (readonly ProfilePoint[])[],
): readonly (readonly ProfilePoint[])[] {
  const from = Math.max(...profiles.map((points) => points[0].x));
  const to = Math.min(...profiles.map((points) => points[points.length - 1].x));
  if (!(to > from)) return profiles;
  const x = Array.from({ length: PLACES }, (_, i) => from + ((to - from) * i) / (PLACES - 1));
  return profiles.map((points) => {
    const z = x.map((at) => heightAt(points, at));
    const level = straightened(z, x);
    const [aft, fore] = [z[0] - level[0], z[PLACES - 1] - level[PLACES - 1]];
    return points.map((p) => ({
      ...p,
      z: p.z - aft - ((fore - aft) * (p.x - from)) / (to - from),
    }));
  });
}

function heightAt(points: readonly ProfilePoint[], at: number): number {
  const after = points.findIndex(({ x }) => x >= at);
  if (after <= 0) return points[after === 0 ? 0 : points.length - 1].z;
  const [a, b] = [points[after - 1], points[after]];
  return a.z + ((b.z - a.z) * (at - a.x)) / (b.x - a.x);
}
