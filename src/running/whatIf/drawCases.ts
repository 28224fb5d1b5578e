import { drawn } from '../estimate.ts';
import { normalSequence } from '../../fit/normalSequence.ts';
import { equilibrium } from '../planing/equilibrium.ts';
import { limitBand } from '../planing/porpoising.ts';
import { ANALOGY } from '../planing/tailFlap.ts';
import { drawLoads } from '../weights/drawLoads.ts';
import { flapsIn, stateIn, type Case, type Doubt, type WhatIfBoat } from './boat.ts';

/** One draw of one case at one speed; undefined where the method tells nothing. */
export interface DrawnRun {
  /** Degrees. */
  readonly trim: number;
  /** Trim less the limit, degrees: above 0 the boat porpoises. Absent where no limit is known. */
  readonly margin?: number;
}

/** How far the method may be out in trim, for every case and speed alike: a factor between these, all as likely. A house
 *  default, no source. */
export const METHOD = { low: 0.9, high: 1.1 } as const;

/** Draws by case, then draw, then speed. The same draw is the same boat in every case and at every speed: weights, tail,
 *  how far the flap analogy holds, where in its band the limit lies, how far the method is out. From a fixed sequence in
 *  mirrored pairs, so that the same boat always gives the same answer. */
export function drawCases(
  boat: WhatIfBoat,
  cases: readonly Case[],
  speeds: readonly number[],
  draws: number,
): readonly (readonly (readonly (DrawnRun | undefined)[])[])[] {
  const ledger = drawLoads(boat.items);
  const size = ledger.size + OWN + numbered(boat).length;
  const pairs = Math.ceil(draws / 2);
  const normals = normalSequence(pairs * size);
  const boats = Array.from({ length: 2 * pairs }, (_, k) => {
    const half = normals.subarray((k >> 1) * size, ((k >> 1) + 1) * size);
    const z = k % 2 === 0 ? half : half.map((value) => -value);
    return { z, own: z.subarray(ledger.size) };
  });
  return cases.map((name) => {
    const state = stateIn(name, boat.items);
    const near: (number | undefined)[] = [];
    return boats.map(({ z, own }) => {
      const load = ledger.at(z, state);
      const turned =
        boat.tail === undefined
          ? 0
          : (boat.tail.angle + boat.tail.u * own[0]) * drawn(ANALOGY, own[1]);
      const within = drawn({ low: 0, high: 1 }, own[2]);
      const method = drawn(METHOD, own[3]);
      const one = drawnBoat(boat, own.subarray(OWN));
      const { hull, water, thrust, friction, gravity } = one;
      return speeds.map((speed, i): DrawnRun | undefined => {
        if (load === undefined) return undefined;
        const runs = equilibrium(
          {
            ...{ hull, water, load, speed, flaps: flapsIn(name, one, turned) },
            ...(thrust && { thrust }),
            ...(friction && { friction }),
            ...(gravity !== undefined && { gravity }),
          },
          near[i],
        );
        if (!runs.ok) return undefined;
        near[i] = runs.trim;
        const trim = runs.trim * method;
        const band = limitBand(hull.deadrise, runs.loading);
        if (!band.ok) return { trim };
        return { trim, margin: trim - band.low - within * (band.high - band.low) };
      });
    });
  });
}

/** The boat with what is in doubt drawn; `normals`: one for each that may be. */
function drawnBoat(boat: WhatIfBoat, normals: ArrayLike<number>): WhatIfBoat {
  const { hull, doubt, thrust, tabs } = boat;
  if (doubt === undefined) return boat;
  const names = numbered(boat);
  const at = (name: keyof Doubt, known: number) => {
    const estimate = doubt[name];
    return estimate === undefined ? known : drawn(estimate, normals[names.indexOf(name)]);
  };
  const angle = thrust && at('thrustAngle', thrust.angle);
  return {
    ...boat,
    hull: { ...hull, beam: at('beam', hull.beam), deadrise: at('deadrise', hull.deadrise) },
    ...(thrust &&
      angle !== undefined && {
        thrust:
          'arm' in thrust
            ? { arm: at('thrustArm', thrust.arm), angle }
            : { x: at('thrustX', thrust.x), height: at('thrustHeight', thrust.height), angle },
      }),
    ...(tabs && { tabs: tabs.map((tab) => ({ ...tab, angle: at('tabAngle', tab.angle) })) }),
  };
}

/** What numbers are drawn for, in order. Beam and deadrise have theirs whenever anything is in doubt, and what came later
 *  only where it is, so that a boat's answer stays the same. */
function numbered({ doubt }: WhatIfBoat): readonly (keyof Doubt)[] {
  if (doubt === undefined) return [];
  return ['beam', 'deadrise', ...SINCE.filter((name) => doubt[name] !== undefined)];
}

const SINCE = [
  'thrustArm',
  'thrustX',
  'thrustHeight',
  'thrustAngle',
  'tabAngle',
] as const satisfies readonly (keyof Doubt)[];

/** Normal numbers that a draw needs besides its weights: tail, analogy, limit, method. */
const OWN = 4;
