/** Water as the formulas need it. */
export interface Water {
  /** kg/m³ */
  readonly density: number;
  /** Kinematic viscosity, m²/s. */
  readonly viscosity: number;
}

/** At 15 °C, sea water of absolute salinity 35.165 g/kg: ITTC Recommended Procedure 7.5-02-01-03, revision 03. */
export const WATERS: Readonly<Record<'fresh' | 'sea', Water>> = {
  fresh: { density: 999.1026, viscosity: 1.13858e-6 },
  sea: { density: 1026.021, viscosity: 1.18831e-6 },
};

/** Standard acceleration of free fall, m/s²: NIST SP 811 (2008), appendix B. */
export const STANDARD_GRAVITY = 9.80665;
