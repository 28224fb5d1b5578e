/** Speeds are stored in m/s. This is the one place that says what another unit is worth.
 *  1 kn = 1852 m/h, 1 mph = 0.44704 m/s, 1 ft/s = 0.3048 m/s exactly: NIST SP 811 (2008), appendix B.8. */
export const SPEED_UNITS = {
  kn: 1852 / 3600,
  mph: 0.44704,
  'km/h': 1 / 3.6,
  'm/s': 1,
  'ft/s': 0.3048,
} as const;
export type SpeedUnit = keyof typeof SPEED_UNITS;

const NAMES: Readonly<Record<string, SpeedUnit>> = {
  kn: 'kn',
  kt: 'kn',
  kts: 'kn',
  knot: 'kn',
  knots: 'kn',
  mph: 'mph',
  'km/h': 'km/h',
  kmh: 'km/h',
  'm/s': 'm/s',
  'ft/s': 'ft/s',
  fps: 'ft/s',
};

/** The unit that a word stands for; undefined where it stands for none. */
export function speedUnitNamed(word: string): SpeedUnit | undefined {
  const name = word.trim().toLowerCase();
  return Object.hasOwn(NAMES, name) ? NAMES[name] : undefined;
}

/** A speed to the half unit, or to whole units: "28 kn", "14.5 kn". */
export function showSpeed(mps: number, unit: SpeedUnit): string {
  return `${Math.round((mps / SPEED_UNITS[unit]) * 2) / 2} ${unit}`;
}
