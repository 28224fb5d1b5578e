/** Friction of a smooth flat plate against the Reynolds number, both dimensionless, 10⁵ to 10¹⁰; RangeError outside. */
export const FRICTION_LINES = { Schoenherr: schoenherr, 'ITTC 1957': ittc1957 } as const;
export type FrictionLine = keyof typeof FRICTION_LINES;

/** What a line in normal condition adds to the coefficient: the ATTC's standard roughness, as Savitsky (1964), table 1. */
export const STANDARD_ROUGHNESS = 0.0004;

/** 0.242 / √Cf = log₁₀(Re·Cf), the line that Savitsky (1964) uses (ATTC 1947), solved to the last digits; the four
 *  coefficients that he prints come out to each digit (test/running/planing/friction.test.ts). */
export function schoenherr(reynolds: number): number {
  checkReynolds(reynolds);
  const log = Math.log10(reynolds);
  let root = Math.sqrt(0.075) / (log - 2);
  for (let i = 0; i < 12; i++) {
    const off = 0.242 / root - log - 2 * Math.log10(root);
    const step = off / (0.242 / (root * root) + 2 / (Math.LN10 * root));
    root += step;
    if (Math.abs(step) < 1e-13 * root) break;
  }
  return root * root;
}

/** 0.075 / (log₁₀ Re − 2)²: the model-ship correlation line of the ITTC (1957). */
export function ittc1957(reynolds: number): number {
  checkReynolds(reynolds);
  return 0.075 / (Math.log10(reynolds) - 2) ** 2;
}

function checkReynolds(reynolds: number): void {
  if (!(reynolds >= 1e5 && reynolds <= 1e10)) {
    throw new RangeError(`a Reynolds number from 1e5 to 1e10 expected, got ${reynolds}`);
  }
}
