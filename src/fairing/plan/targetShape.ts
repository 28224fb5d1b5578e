import { heightAt } from '../heightAt.ts';
import type { StraightLine } from '../straightLine.ts';
import type { Camber, Feather } from './options.ts';

/** The surface to be worked, at places from the aft end of the readings to the forward limit, ascending; both of
 *  these and the place where the feather begins are among them. mm. */
export interface Stretch {
  readonly x: readonly number[];
  readonly z: readonly number[];
  /** Where the feather begins: the forward limit where there is none. */
  readonly feathered: number;
  readonly turn: number;
  readonly camber?: Camber;
}

/** A target is fixed by how far its straight part misses the hull at the forward limit (the feather takes that up)
 *  and by how high it stands at the aft end above its own forward end. mm. */
export interface TargetFigures {
  readonly miss: number;
  readonly rise: number;
}

/** What the target's height at x is made of: height = base + miss·perMiss + rise·perRise. Straight with its camber up
 *  to the feather; from there it bends once, evenly, so that it equals the surface at the forward limit. */
export function shapeAt(stretch: Stretch, i: number) {
  const { x, z, feathered } = stretch;
  const last = x.length - 1;
  const [aft, fore] = [x[0], x[last]];
  const taken = x[i] <= feathered ? 0 : (x[i] - feathered) / (fore - feathered);
  return {
    base: z[last] + camberAt(stretch, x[i]),
    perMiss: taken - 1,
    perRise: (fore - x[i]) / (fore - aft),
  };
}

/** Off the chord of the worked stretch, positive towards the water; nothing at both ends. */
function camberAt({ x, camber }: Stretch, at: number): number {
  if (camber === undefined) return 0;
  const [aft, fore] = [x[0], x[x.length - 1]];
  const along = (at - aft) / (fore - aft);
  return (camber.shape === 'convex' ? 4 : -4) * camber.height * along * (1 - along);
}

export function targetHeights(stretch: Stretch, { miss, rise }: TargetFigures): readonly number[] {
  return stretch.x.map((_, i) => {
    const { base, perMiss, perRise } = shapeAt(stretch, i);
    return base + miss * perMiss + rise * perRise;
  });
}

/** The straight part, without camber, in the datum of the surface. */
export function straightPart({ x, z }: Stretch, { miss, rise }: TargetFigures): StraightLine {
  const last = x.length - 1;
  const slope = -rise / (x[last] - x[0]);
  return { middle: (x[0] + x[last]) / 2, level: z[last] - miss + rise / 2, slope };
}

/** The stretch from the aft end of a profile to the forward limit, with the feather's beginning among its places. A
 *  feather longer than half the stretch is shortened to that. Undefined where fewer than three places lie aft of the
 *  limit, or the limit lies ahead of the profile. */
export function stretchOf(
  profile: readonly { readonly x: number; readonly z: number }[],
  forward: number,
  feather: Feather,
  camber?: Camber,
): Stretch | undefined {
  const aft = profile[0].x;
  const end = profile[profile.length - 1].x;
  if (forward > end + 1e-6) return undefined;
  const fore = Math.min(forward, end);
  const feathered = fore - Math.min(feather.length, (fore - aft) / 2);
  const x = profile.map((point) => point.x).filter((at) => at < fore - 1e-6);
  if (x.length < 3) return undefined;
  if (!x.some((at) => Math.abs(at - feathered) < 1e-6) && feathered < fore) x.push(feathered);
  x.push(fore);
  x.sort((a, b) => a - b);
  const z = x.map((at) => heightAt(profile, at));
  return { x, z, feathered, turn: feather.turn, ...(camber && { camber }) };
}
