import { expect, test } from 'vitest';
import { MASS_UNITS, massUnitNamed, showMass } from '../../src/running/massUnits.ts';
import { SPEED_UNITS, showSpeed, speedUnitNamed } from '../../src/running/speedUnits.ts';
import { reference } from './reference.ts';

// NIST SP 811 (2008), appendix B, exact.
test('a pound, a knot and a mile an hour are worth what NIST says', () => {
  const { units_exact: exact } = reference('naval_handbook.json') as {
    readonly units_exact: Record<string, number>;
  };
  expect(MASS_UNITS.lb).toBe(exact['pound_kg']);
  expect(SPEED_UNITS.kn).toBeCloseTo(exact['knot_m_s'], 15);
  expect(SPEED_UNITS.mph).toBe(exact['mph_m_s']);
});

test('units are known by the words that people write, and by no others', () => {
  expect(['lb', 'LBS', 'kg', 'stone', 'toString'].map(massUnitNamed)).toEqual([
    'lb',
    'lb',
    'kg',
    undefined,
    undefined,
  ]);
  expect(['kn', 'knots', 'MPH', 'warp'].map(speedUnitNamed)).toEqual([
    'kn',
    'kn',
    'mph',
    undefined,
  ]);
});

test('a mass is shown with what it may be out by and no finer', () => {
  expect(showMass(5510 * MASS_UNITS.lb, 'lb', 31 * MASS_UNITS.lb)).toBe('5510 lb ± 70 lb');
  expect(showMass(424, 'kg', 21)).toBe('425 kg ± 45 kg');
  expect(showMass(24.2, 'kg', 2.1)).toBe('24 kg ± 5 kg');
  expect(showMass(2499.3, 'kg', 61)).toBe('2500 kg ± 130 kg');
  expect(showMass(-0.2, 'kg')).toBe('0 kg');
});

test('a speed is shown to the half unit', () => {
  expect(showSpeed(28.2 * SPEED_UNITS.kn, 'kn')).toBe('28 kn');
});
