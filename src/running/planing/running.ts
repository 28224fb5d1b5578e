import type { FrictionLine } from './friction.ts';
import type { Water } from './water.ts';

/** A prismatic planing bottom: beam and deadrise as averages over the part that the stagnation line crosses. */
export interface PlaningHull {
  /** Between the chines, mm. */
  readonly beam: number;
  /** Degrees, 0 to 30. */
  readonly deadrise: number;
  /** Keel from the transom to where it rises to the bow, mm: beyond it nothing is told. Not asked where absent. */
  readonly straightKeel?: number;
}

/** What the water has to carry. */
export interface Load {
  /** kg */
  readonly displacement: number;
  /** Forward of the transom's bottom edge, mm. */
  readonly lcg: number;
  /** Above the keel at the transom, mm. Absent: thrust, drag and weight are all taken through one point
   *  (Savitsky's equation 37). */
  readonly vcg?: number;
}

/** Where the propeller pushes. `angle`: degrees against the keel, positive pushing upwards (drive trimmed out). */
export type Thrust =
  /** `arm`: how far the line passes below the centre of gravity, mm; negative above it. */
  | { readonly arm: number; readonly angle: number }
  /** The propeller's hub: forward of the transom (negative aft of it) and above the keel (negative below it), mm. */
  | { readonly x: number; readonly height: number; readonly angle: number };

/** A strip at the transom, or hung behind it, set against the bottom ahead of it. */
export interface Flap {
  /** Fore and aft, mm. */
  readonly chord: number;
  /** Degrees, positive turned down. */
  readonly angle: number;
  /** Its whole width as a part of the beam, 0 to 1: both sides together. */
  readonly span: number;
  /** How far its trailing edge lies aft of the transom, mm: the chord of a tab that hangs there, 0 for a part of the
   *  bottom. */
  readonly aft: number;
}

/** A hull that runs in calm water at a steady speed. */
export interface Running {
  readonly hull: PlaningHull;
  readonly load: Load;
  /** m/s */
  readonly speed: number;
  readonly water: Water;
  /** Absent: through the centre of gravity, parallel to the keel. */
  readonly thrust?: Thrust;
  readonly flaps?: readonly Flap[];
  /** Absent: Schoenherr with the standard roughness, as Savitsky has it. */
  readonly friction?: { readonly line: FrictionLine; readonly allowance: number };
  /** m/s²; absent: the standard one. */
  readonly gravity?: number;
}

/** Why the method gives no number. Each reads after "not told: ". */
export const OUTSIDE = {
  deadrise: 'deadrise outside 0° to 30°',
  slow: 'too slow for planing formulas (speed coefficient below 1)',
  fast: 'too fast for the formulas (speed coefficient above 13)',
  flat: 'the trim would be below 2°',
  steep: 'the trim would be above 15°',
  long: 'the wetted length would be beyond 4 beams',
  short: 'the wetted length would be below a tenth of the beam',
  dry: 'the chines would run dry at the transom',
  bow: 'the bow would be in the water',
  several: 'more than one trim balances',
  water:
    'friction at this size and speed is outside its line (Reynolds number 100,000 to 10,000,000,000)',
  lengths: 'wetted keel and chine at a speed coefficient below 2 need a deadrise of 10° or less',
  flapSlow: 'flap formulas need a speed coefficient of 2 or more',
  flapFast: 'flap formulas need a speed coefficient of 7 or less',
  flapAngle: 'the equivalent flap would stand at more than 15°',
  flapTrim: 'flap formulas need a trim of 10° or less',
  flapLift: 'the flap would carry more than half the boat',
} as const;
export type Outside = (typeof OUTSIDE)[keyof typeof OUTSIDE];

export interface NotTold {
  readonly ok: false;
  readonly reason: Outside;
}

export function notTold(why: keyof typeof OUTSIDE): NotTold {
  return { ok: false, reason: OUTSIDE[why] };
}
