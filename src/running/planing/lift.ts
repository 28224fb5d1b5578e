/** Lift of a prismatic planing surface. Trim and deadrise in degrees; lambda is mean wetted length in beams; cv is speed
 *  over the root of g × beam. Coefficients are of ½ρV²b².
 *  Source: Savitsky (1964), Hydrodynamic Design of Planing Hulls, Marine Technology 1(1), 71, equations 15 and 16;
 *  made from tests with 0.60 ≤ cv ≤ 13, 2° ≤ trim ≤ 15°, lambda ≤ 4. */
export function flatLift(trim: number, lambda: number, cv: number): number {
  return trim ** 1.1 * (DYNAMIC * lambda ** 0.5 + (BUOYANT * lambda ** 2.5) / (cv * cv));
}

/** The part of it that depends on speed alone; with deadrise, for the mean velocity under the bottom. */
export function dynamicLift(trim: number, lambda: number, deadrise: number): number {
  return liftWithDeadrise(DYNAMIC * lambda ** 0.5 * trim ** 1.1, deadrise);
}

/** Equation 16: what deadrise leaves of a flat surface's lift. */
export function liftWithDeadrise(flat: number, deadrise: number): number {
  return flat - DEADRISE * deadrise * flat ** 0.6;
}

/** Equation 16 the other way: the flat lift that gives `lift` above 0 with this deadrise, to 12 digits.
 *  The function is convex and the search begins above its only root, so Newton's steps come down to it. */
export function flatLiftFor(lift: number, deadrise: number): number {
  const k = DEADRISE * deadrise;
  let flat = 2 * Math.max(lift, (2 * k) ** 2.5);
  for (let i = 0; i < 50; i++) {
    const power = k * flat ** 0.6;
    const step = (flat - power - lift) / (1 - (0.6 * power) / flat);
    flat -= step;
    if (Math.abs(step) < 1e-13 * flat) break;
  }
  return flat;
}

/** Equation 15 the other way: the lambda at which trim gives this flat lift, to 12 digits. */
export function lambdaFor(flat: number, trim: number, cv: number): number {
  const target = flat / trim ** 1.1;
  const buoyant = BUOYANT / (cv * cv);
  let root = Math.min(target / DYNAMIC, (target / buoyant) ** 0.2);
  for (let i = 0; i < 50; i++) {
    const fourth = root ** 4;
    const step =
      (DYNAMIC * root + buoyant * fourth * root - target) / (DYNAMIC + 5 * buoyant * fourth);
    root -= step;
    if (Math.abs(step) < 1e-13 * root) break;
  }
  return root * root;
}

/** The trim at which a surface of this lambda has this flat lift. */
export function trimFor(flat: number, lambda: number, cv: number): number {
  return (flat / flatLift(1, lambda, cv)) ** (1 / 1.1);
}

/** Centre of pressure forward of the transom, as a part of the mean wetted length: equation 28. */
export function centreOfPressure(lambda: number, cv: number): number {
  return 0.75 - 1 / ((5.21 * cv * cv) / (lambda * lambda) + 2.39);
}

const DYNAMIC = 0.012;
const BUOYANT = 0.0055;
const DEADRISE = 0.0065;
