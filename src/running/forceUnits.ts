import { MASS_UNITS, type MassUnit } from './massUnits.ts';
import { STANDARD_GRAVITY } from './planing/water.ts';

/** 1 hp = 550 ft·lbf/s, W: NIST SP 811 (2008), appendix B.8. */
const HORSEPOWER = 550 * 0.3048 * MASS_UNITS.lb * STANDARD_GRAVITY;

/** A force in the unit that goes with a mass: "8200 lbf", "40 kN". Two digits: the method is no better. */
export function showForce(newtons: number, unit: MassUnit): string {
  return unit === 'lb'
    ? `${digits(newtons / (MASS_UNITS.lb * STANDARD_GRAVITY))} lbf`
    : `${digits(newtons / 1000)} kN`;
}

/** A power in the unit that goes with a mass, to two digits. */
export function showPower(watts: number, unit: MassUnit): string {
  return unit === 'lb' ? `${digits(watts / HORSEPOWER)} hp` : `${digits(watts / 1000)} kW`;
}

function digits(value: number): string {
  return String(Number(value.toPrecision(2)));
}
