import { checkRunning } from './checkRunning.ts';
import { flapForces, type FlapForces } from './flap.ts';
import { flatLiftFor } from './lift.ts';
import { notTold, type NotTold, type Running, type Thrust } from './running.ts';
import { STANDARD_GRAVITY } from './water.ts';

export const RAD = Math.PI / 180;

/** A hull at one speed, in m, N and degrees, with what does not depend on its trim. */
export interface Problem {
  readonly ok: true;
  readonly running: Running;
  readonly beam: number;
  /** Speed over √(g × beam). */
  readonly cv: number;
  /** ½ρV², Pa. */
  readonly pressure: number;
  readonly weight: number;
  /** Carried by the bottom: weight less what flaps lift; and where that acts. */
  readonly carried: number;
  readonly lcg: number;
  /** Flat lift coefficient that carries it. */
  readonly flat: number;
  readonly flap: FlapForces;
  /** How far the lines of drag and thrust pass below the centre of gravity, and the angle of thrust.
   *  Absent: all through the centre of gravity. */
  readonly lines?: { readonly drag: number; readonly thrust: number; readonly angle: number };
}

/** Sets the problem up, or says why the method does not cover it. Throws RangeError on what is no size. */
export function problemOf(running: Running): Problem | NotTold {
  checkRunning(running);
  const { hull, load, speed, water, thrust, gravity = STANDARD_GRAVITY } = running;
  if (hull.deadrise < 0 || hull.deadrise > 30) return notTold('deadrise');
  const beam = hull.beam / 1000;
  const cv = speed / Math.sqrt(gravity * beam);
  if (cv < 1) return notTold('slow');
  if (cv > 13) return notTold('fast');
  const pressure = 0.5 * water.density * speed * speed;
  const flap = flapForces(running.flaps ?? [], beam, pressure, cv);
  if (!flap.ok) return flap;
  const weight = load.displacement * gravity;
  if (Math.abs(flap.lift) > weight / 2) return notTold('flapLift');
  const carried = weight - flap.lift;
  return {
    ok: true,
    running,
    beam,
    cv,
    pressure,
    weight,
    carried,
    lcg: (weight * (load.lcg / 1000) - flap.moment) / carried,
    flat: flatLiftFor(carried / (pressure * beam * beam), hull.deadrise),
    flap,
    ...(load.vcg !== undefined && {
      lines: {
        drag: load.vcg / 1000 - (beam / 4) * Math.tan(hull.deadrise * RAD),
        thrust: thrustArm(thrust, load.lcg, load.vcg) / 1000,
        angle: thrust === undefined ? PARALLEL : thrust.angle,
      },
    }),
  };
}

/** To the keel. */
const PARALLEL = 0;

/** How far the line of thrust passes below the centre of gravity, mm; negative above it. */
export function thrustArm(thrust: Thrust | undefined, lcg: number, vcg: number): number {
  if (thrust === undefined) return 0;
  if ('arm' in thrust) return thrust.arm;
  const angle = thrust.angle * RAD;
  return (vcg - thrust.height) * Math.cos(angle) - (lcg - thrust.x) * Math.sin(angle);
}
