import { quantileSorted } from 'simple-statistics';

/** Where 95 of 100 draws lie, and their middle. */
export interface Spread {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** Undefined where fewer than 95 of 100 of the draws tell anything: a spread of the rest would be of another boat. */
export function spreadOf(values: readonly (number | undefined)[]): Spread | undefined {
  const told = values.filter((value) => value !== undefined).sort((a, b) => a - b);
  if (told.length === 0 || told.length < 0.95 * values.length) return undefined;
  const [low, middle, high] = [0.025, 0.5, 0.975].map((p) => quantileSorted(told, p));
  return { low, middle, high };
}

/** How often something holds among the draws that tell it; undefined as above. */
export function shareOf(values: readonly (boolean | undefined)[]): number | undefined {
  const told = values.filter((value) => value !== undefined);
  if (told.length === 0 || told.length < 0.95 * values.length) return undefined;
  return told.filter(Boolean).length / told.length;
}
