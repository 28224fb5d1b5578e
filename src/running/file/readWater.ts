import { MASS_UNITS } from '../massUnits.ts';

const CUBIC_FOOT = 0.3048 ** 3;
const SQUARE_FOOT = 0.3048 ** 2;

/** kg/m³ in one of it. 1 slug is the mass that 1 lbf speeds up by 1 ft/s²: NIST SP 811 (2008), appendix B.8. */
const DENSITIES: Readonly<Record<string, number>> = {
  'kg/m3': 1,
  'lb/ft3': MASS_UNITS.lb / CUBIC_FOOT,
  'slug/ft3': (MASS_UNITS.lb * 9.80665) / 0.3048 / CUBIC_FOOT,
};

/** m²/s in one of it. */
const VISCOSITIES: Readonly<Record<string, number>> = {
  'm2/s': 1,
  'ft2/s': SQUARE_FOOT,
  cst: 1e-6,
};

/** A density in kg/m³ from "1025 kg/m3", "64 lb/ft3" or "1.94 slug/ft3"; undefined where it says none above 0. */
export function readDensity(text: string): number | undefined {
  return read(text, DENSITIES);
}

/** A kinematic viscosity in m²/s from "1.19e-6 m2/s", "1.28e-5 ft2/s" or "1.19 cSt"; undefined likewise. */
export function readViscosity(text: string): number | undefined {
  return read(text, VISCOSITIES);
}

function read(text: string, units: Readonly<Record<string, number>>): number | undefined {
  const parts = /^(\d+(?:\.\d+)?(?:e[-+]?\d+)?)\s+(\S+)$/i.exec(text.trim());
  const unit = parts?.[2]
    .toLowerCase()
    .replaceAll('²', '2')
    .replaceAll('³', '3')
    .replaceAll('^', '');
  if (parts === null || unit === undefined || !Object.hasOwn(units, unit)) return undefined;
  const value = Number(parts[1]) * units[unit];
  return value > 0 && value < Infinity ? value : undefined;
}
