/** Masses are stored in kg. This is the one place that says what another unit is worth.
 *  1 lb = 0.45359237 kg exactly: NIST SP 811 (2008), appendix B.8. */
export const MASS_UNITS = { kg: 1, lb: 0.45359237 } as const;
export type MassUnit = keyof typeof MASS_UNITS;

const NAMES: Readonly<Record<string, MassUnit>> = {
  kg: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
};

/** The unit that a word stands for; undefined where it stands for none. */
export function massUnitNamed(word: string): MassUnit | undefined {
  const name = word.trim().toLowerCase().replace(/\.$/, '');
  return Object.hasOwn(NAMES, name) ? NAMES[name] : undefined;
}

/** A mass with what it may be out by, no finer than that: "255 kg ± 12 kg", "5,510 lb ± 80 lb" without the comma. `u` is
 *  a standard uncertainty, twice it is shown; without it whole units. */
export function showMass(kg: number, unit: MassUnit, u = 0): string {
  const size = kg / MASS_UNITS[unit];
  const spread = (2 * u) / MASS_UNITS[unit];
  const step = spread >= 50 ? 10 : spread >= 20 ? 5 : 1;
  const shown = (value: number) => `${Math.round(value / step) * step + 0} ${unit}`;
  return u > 0
    ? `${shown(size)} ± ${Math.max(1, Math.ceil(spread / step - 1e-9)) * step} ${unit}`
    : shown(size);
}
