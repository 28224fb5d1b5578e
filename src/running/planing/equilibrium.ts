import { balancedTrim, bottomAt } from './balance.ts';
import { flapDrag, restated } from './flap.ts';
import { problemOf, RAD, type Problem } from './problem.ts';
import { notTold, type NotTold, type Running } from './running.ts';

/** How a hull runs when every moment balances. */
export interface Equilibrium {
  readonly ok: true;
  /** Keel against the water, degrees. */
  readonly trim: number;
  /** Mean wetted length in beams. */
  readonly lambda: number;
  /** Wetted length of keel and chine, mm, and how deep the transom's bottom edge lies, mm; or why they are not told. */
  readonly wetted:
    | { readonly ok: true; readonly keel: number; readonly chine: number; readonly draft: number }
    | NotTold;
  /** N, with the friction in it and what a flap adds. */
  readonly drag: number;
  readonly friction: number;
  readonly flapDrag: number;
  /** Drag × speed, W. What an engine must give is more: the propeller takes its part. */
  readonly power: number;
  /** Of the pressure on the bottom, mm forward of the transom. */
  readonly centre: number;
  /** What flaps carry, N. */
  readonly flapLift: number;
  /** Speed over √(g × beam). */
  readonly cv: number;
  /** √(CL/2), CL being weight over ½ρV²b²: what the porpoising limit is drawn against. */
  readonly loading: number;
  readonly reynolds: number;
  /** Of the friction line, without roughness. */
  readonly frictionCoefficient: number;
  /** Whether a flap is restated shorter and steeper, to stand in the range of its formulas. */
  readonly flapRestated: boolean;
}

/** Finds the trim at which a prismatic hull runs steadily, from 2° to 15°, or says why none is told.
 *  `near`: a trim close by which it is looked for first, to save time where many neighbours are asked.
 *  Throws RangeError on a beam, mass or speed that is no size; every refusal is one of `OUTSIDE`.
 *  Accuracy: Savitsky's table 1 within 0.1° of trim, 3 % of drag and power, 0.001 of √(CL/2); the same equations solved
 *  apart from this programme, to every digit that was kept (test/running/planing/equilibrium.test.ts).
 *  Source: Savitsky (1964), Marine Technology 1(1), 71: equations 15 to 19, 24 with the deadrise lift, 28, 35, or 37
 *  where no height of the centre of gravity is known; spray drag is left out as there. Flaps: see `flapForces`. */
export function equilibrium(running: Running, near?: number): Equilibrium | NotTold {
  const problem = problemOf(running);
  if (!problem.ok) return problem;
  const trim = balancedTrim(problem, near);
  return typeof trim === 'number' ? describe(problem, trim) : trim;
}

function describe(problem: Problem, trim: number): Equilibrium | NotTold {
  const { running, beam, cv, flap, carried, weight, pressure } = problem;
  const { deadrise, straightKeel } = running.hull;
  const { lambda, centre, friction, coefficient, reynolds } = bottomAt(problem, trim);
  const flaps = (running.flaps ?? []).filter(({ angle }) => angle !== 0);
  const inRange = flaps.map((one) => restated(one, lambda * beam * 1000));
  if (flaps.length > 0 && trim > 10) return notTold('flapTrim');
  if (inRange.some(({ angle }) => Math.abs(angle) > 15)) return notTold('flapAngle');
  const tau = trim * RAD;
  const half = (beam / (2 * Math.PI)) * (Math.tan(deadrise * RAD) / Math.tan(tau));
  const keel = lambda * beam + half;
  const chine = lambda * beam - half;
  // Equation 3 holds where cv is above 2, or above 1 with a deadrise of 10° or less.
  const lengthsTold = cv >= 2 || deadrise <= 10;
  if (lengthsTold && chine < 0) return notTold('dry');
  if (lengthsTold && straightKeel !== undefined && keel * 1000 > straightKeel)
    return notTold('bow');
  const added = flapDrag(flap, trim);
  const drag = carried * Math.tan(tau) + friction / Math.cos(tau) + added;
  return {
    ok: true,
    trim,
    lambda,
    wetted: lengthsTold
      ? { ok: true, keel: keel * 1000, chine: chine * 1000, draft: keel * Math.sin(tau) * 1000 }
      : notTold('lengths'),
    drag,
    friction,
    flapDrag: added,
    power: drag * running.speed,
    centre: centre * 1000,
    flapLift: flap.lift,
    cv,
    loading: Math.sqrt(weight / (pressure * beam * beam) / 2),
    reynolds,
    frictionCoefficient: coefficient,
    flapRestated: inRange.some((one, i) => one !== flaps[i]),
  };
}
