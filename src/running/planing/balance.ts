import { FRICTION_LINES, STANDARD_ROUGHNESS } from './friction.ts';
import { centreOfPressure, dynamicLift, lambdaFor, trimFor } from './lift.ts';
import { RAD, type Problem } from './problem.ts';
import { notTold, type NotTold } from './running.ts';

/** The bottom at one trim: lengths in m, friction in N. */
export interface Bottom {
  /** Mean wetted length in beams. */
  readonly lambda: number;
  /** Of pressure, forward of the transom. */
  readonly centre: number;
  readonly friction: number;
  readonly coefficient: number;
  readonly reynolds: number;
}

/** Equations 15, 19, 24 and 28 of Savitsky (1964); the mean velocity with the lift that deadrise leaves, as he has it
 *  in his figure 14. */
export function bottomAt(problem: Problem, trim: number): Bottom {
  const { beam, cv, flat, pressure, running } = problem;
  const { deadrise } = running.hull;
  const lambda = lambdaFor(flat, trim, cv);
  const slowed = 1 - dynamicLift(trim, lambda, deadrise) / (lambda * Math.cos(trim * RAD));
  const reynolds = (running.speed * Math.sqrt(slowed) * lambda * beam) / running.water.viscosity;
  const { line, allowance } = running.friction ?? AS_SAVITSKY;
  const coefficient = FRICTION_LINES[line](reynolds);
  const friction =
    ((coefficient + allowance) * pressure * slowed * lambda * beam * beam) /
    Math.cos(deadrise * RAD);
  const centre = centreOfPressure(lambda, cv) * lambda * beam;
  return { lambda, centre, friction, coefficient, reynolds };
}

const AS_SAVITSKY = { line: 'Schoenherr', allowance: STANDARD_ROUGHNESS } as const;

/** What turns the bow down at a trim, N·m: equation 35, or 37 where all forces pass through the centre of gravity. */
export function bowDownMoment(problem: Problem, trim: number): number {
  const { carried, lcg, lines, flat, cv, beam } = problem;
  if (lines === undefined) {
    const lambda = lambdaFor(flat, trim, cv);
    return carried * (lcg - centreOfPressure(lambda, cv) * lambda * beam);
  }
  const tau = trim * RAD;
  const { centre, friction } = bottomAt(problem, trim);
  const share = 1 - Math.sin(tau) * Math.sin(tau + lines.angle * RAD);
  return (
    carried * ((share * (lcg - centre)) / Math.cos(tau) - lines.thrust * Math.sin(tau)) +
    friction * (lines.drag - lines.thrust)
  );
}

/** The trim at which that moment vanishes, to 1e-9 degree. Looks through the whole range in which the formulas stand,
 *  so that a second balance would be seen; but where `near` brackets one within half a degree, that one is taken. */
export function balancedTrim(problem: Problem, near?: number): number | NotTold {
  const { flat, cv } = problem;
  const longest = trimFor(flat, LONGEST, cv);
  const shortest = trimFor(flat, SHORTEST, cv);
  const lowest = Math.max(FLATTEST, longest);
  const highest = Math.min(STEEPEST, shortest);
  if (highest <= FLATTEST) return notTold('short');
  if (lowest >= STEEPEST) return notTold('long');
  if (!frictionTold(problem)) return notTold('water');
  const close = near === undefined ? undefined : bracketNear(problem, near, lowest, highest);
  if (close) return closeIn(problem, close);
  let from = lowest;
  let at = bowDownMoment(problem, from);
  if (at > 0) return notTold(longest > FLATTEST ? 'long' : 'flat');
  let found: Bracket | undefined;
  for (let i = 1; i <= STEPS; i++) {
    const to = lowest + ((highest - lowest) * i) / STEPS;
    const after = bowDownMoment(problem, to);
    if (at <= 0 !== after <= 0) {
      if (found) return notTold('several');
      found = { from, to, at, after };
    }
    from = to;
    at = after;
  }
  if (found) return closeIn(problem, found);
  return notTold(shortest < STEEPEST ? 'short' : 'steep');
}

const FLATTEST = 2;
const STEEPEST = 15;
const LONGEST = 4;
/** Beams. Below it the mean velocity of equation 24 loses its sense; our own limit, outside every test of the paper. */
const SHORTEST = 0.1;
const STEPS = 14;

function bracketNear(
  problem: Problem,
  near: number,
  lowest: number,
  highest: number,
): Bracket | undefined {
  const from = Math.max(lowest, near - 0.5);
  const to = Math.min(highest, near + 0.5);
  if (from >= to) return undefined;
  const at = bowDownMoment(problem, from);
  const after = bowDownMoment(problem, to);
  return at <= 0 && after > 0 ? { from, to, at, after } : undefined;
}

/** Whether the friction line covers every wetted length that the search may come by. */
function frictionTold({ running, beam }: Problem): boolean {
  const perBeam = (running.speed * beam) / running.water.viscosity;
  return perBeam * SHORTEST * SLOWEST > 1e5 && perBeam * LONGEST * FASTEST < 1e10;
}

/** Bounds of the mean velocity under the bottom as a part of the speed, over the search. */
const SLOWEST = 0.45;
const FASTEST = 1.1;

interface Bracket {
  readonly from: number;
  readonly to: number;
  readonly at: number;
  readonly after: number;
}

/** Regula falsi that halves the end which stays (Illinois): keeps the bracket and needs few steps.
 *  Source: Dowell and Jarratt (1971), BIT 11, 168. */
function closeIn(problem: Problem, bracket: Bracket): number {
  let { from, to, at, after } = bracket;
  for (let i = 0; i < 80; i++) {
    const trim = (from * after - to * at) / (after - at);
    const here = bowDownMoment(problem, trim);
    if (here === 0 || Math.abs(trim - to) < 1e-10) return trim;
    if (here < 0 !== after < 0) {
      from = to;
      at = after;
    } else at /= 2;
    to = trim;
    after = here;
  }
  return to;
}
