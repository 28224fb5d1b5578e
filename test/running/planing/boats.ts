import type { Running } from '../../../src/running/planing/running.ts';
import { WATERS } from '../../../src/running/planing/water.ts';

const FOOT = 304.8;
const POUND = 0.45359237;

/** The paper's own constants: rho 1.94 slug/ft³, nu 1e-5 ft²/s, g 32.2 ft/s². */
const g = 32.2 * 0.3048;
export const PAPER = {
  water: { density: 1.94 * 515.3788183931961, viscosity: 1e-5 * 0.09290304 },
  gravity: g,
} as const;

/** Savitsky (1964), the boat of table 1, with figures changed where asked. */
export function paperBoat({
  pounds = 60_000,
  lcgFt = 29,
  deadrise = 10,
  feetPerSecond = 67.5,
}: {
  readonly pounds?: number;
  readonly lcgFt?: number;
  readonly deadrise?: number;
  readonly feetPerSecond?: number;
} = {}): Running {
  return {
    hull: { beam: 14 * FOOT, deadrise },
    // Pounds of force: the mass that weighs them under the paper's gravity.
    load: { displacement: (pounds * POUND * 9.80665) / g, lcg: lcgFt * FOOT, vcg: 2 * FOOT },
    thrust: { arm: 0.5 * FOOT, angle: 4 },
    speed: feetPerSecond * 0.3048,
    ...PAPER,
  };
}

/** A small outboard boat, invented. */
export const SMALL: Running = {
  hull: { beam: 2100, deadrise: 18 },
  load: { displacement: 2400, lcg: 2000, vcg: 600 },
  speed: 14,
  water: WATERS.sea,
};
