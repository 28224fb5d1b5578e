import { readLength } from '../../survey/readingText.ts';
import { unitNamed } from '../../survey/units.ts';
import type { Estimate } from '../estimate.ts';
import { MASS_UNITS, massUnitNamed } from '../massUnits.ts';
import { STANDARD_GRAVITY } from '../planing/water.ts';
import { SPEED_UNITS, speedUnitNamed } from '../speedUnits.ts';

/** Reads one number with the unit it stands in; undefined where they are none of that kind. */
export type ReadOne = (number: string, unit: string) => number | undefined;

/** kg; a weight stands for the mass that has it under standard gravity. */
export const massOf: ReadOne = (number, unit) => {
  const name = massUnitNamed(unit);
  if (name !== undefined) return scaled(number, MASS_UNITS[name]);
  return Object.hasOwn(HEAVY, unit) ? scaled(number, HEAVY[unit]) : undefined;
};

/** kg in one of it, its letters as they are: kN is a weight, kn a speed. A bare ton is none of them: it may be long, short
 *  or metric. */
const HEAVY: Readonly<Record<string, number>> = {
  t: 1000,
  tonne: 1000,
  tonnes: 1000,
  lbf: MASS_UNITS.lb,
  N: 1 / STANDARD_GRAVITY,
  kN: 1000 / STANDARD_GRAVITY,
};

/** m/s */
export const speedOf: ReadOne = (number, unit) => {
  const name = speedUnitNamed(unit);
  return name === undefined ? undefined : scaled(number, SPEED_UNITS[name]);
};

/** mm; fractions and ft with in as a person writes them. */
export const lengthOf: ReadOne = (number, unit) => {
  const name = unitNamed(unit);
  if (name === undefined) return undefined;
  const read = readLength(number, { unit: name });
  return read.ok ? read.mm : undefined;
};

function scaled(number: string, size: number): number | undefined {
  const read = decimalOf(number);
  return read === undefined ? undefined : read * size;
}

/** A plain number, its decimal mark a point or a comma; undefined where it is none, or where a comma may mark
 *  thousands. */
export function decimalOf(number: string): number | undefined {
  if (!/^-?\d+([.,]\d+)?$/.test(number) || /^-?[1-9]\d{0,2},\d{3}$/.test(number)) return undefined;
  return Number(number.replace(',', '.'));
}

/** "565 lb", "540 to 590 lb", "540 to 590 lb, likeliest 580", "565 ± 10 lb" (the same as bounds); undefined where it says
 *  none of these. */
export function readEstimate(text: string, read: ReadOne): Estimate | undefined {
  const parts = /^(.*?[\d.])\s*([a-z/"'][a-z/"'.]*)\s*(?:,\s*likeliest\s+(.+?))?$/i.exec(
    text.trim(),
  );
  if (parts === null) return undefined;
  const [, numbers, unit, likely] = parts;
  const one = (number: string) => read(number.trim(), unit);
  const around = numbers.split('±');
  if (around.length === 2 && likely === undefined) {
    const [value, half] = around.map(one);
    if (value === undefined || half === undefined || half < 0) return undefined;
    return { low: value - half, high: value + half };
  }
  const range = numbers.split(/\s+to\s+/);
  if (range.length === 2) {
    const [low, high] = range.map(one);
    if (low === undefined || high === undefined || low > high) return undefined;
    if (likely === undefined) return { low, high };
    const likeliest = one(likely);
    if (likeliest === undefined || likeliest < low || likeliest > high) return undefined;
    return { low, high, likeliest };
  }
  const value = likely === undefined ? one(numbers) : undefined;
  return value === undefined ? undefined : { value };
}

/** "28 kn": one figure, no range. */
export function readFigure(text: string, read: ReadOne): number | undefined {
  const estimate = readEstimate(text, read);
  return estimate !== undefined && 'value' in estimate ? estimate.value : undefined;
}
