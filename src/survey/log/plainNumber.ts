import { UNITS, type CountedUnit } from '../units.ts';

const ZERO = 48;
const MINUS = 45;
const POINT = 46;
const COMMA = 44;
const SPACE = 32;
const POWERS = Float64Array.from({ length: 16 }, (_, k) => 10 ** k);

/** How plain numbers in a column become mm: `parts · times / over`, as `toMm` has it. */
export interface PlainScale {
  readonly times: number;
  readonly over: number;
  /** Whole numbers only: the column counts parts of a unit. */
  readonly whole: boolean;
  /** Digits before the decimal mark, at most: no length has more than 9. */
  readonly most: number;
}

export function plainScale({ unit, denominator }: CountedUnit): PlainScale {
  const size = UNITS[unit].mm;
  const over = denominator ?? 1;
  const whole = denominator !== undefined;
  return Number.isInteger(size)
    ? { times: size, over, whole, most: 9 }
    : { times: size * 10, over: over * 10, whole, most: 9 };
}

/** Numbers that are no lengths. */
export const BARE: PlainScale = { times: 1, over: 1, whole: false, most: 15 };

/** The number in a cell of bytes where it is a plain decimal of at most 15 digits, to the last bit what `Number`
 *  reads; NaN for anything else, which is then read with care. `comma`: the file's decimal mark is one. */
export function plainNumber(
  bytes: Uint8Array,
  start: number,
  end: number,
  { times, over, whole, most }: PlainScale,
  comma: boolean,
): number {
  let at = start;
  let last = end;
  while (at < last && bytes[at] === SPACE) at += 1;
  while (last > at && bytes[last - 1] === SPACE) last -= 1;
  const negative = at < last && bytes[at] === MINUS;
  if (negative) at += 1;
  const mark = comma ? COMMA : POINT;
  let value = 0;
  let digits = 0;
  let decimals = -1;
  for (; at < last; at += 1) {
    const digit = bytes[at] - ZERO;
    if (digit >= 0 && digit <= 9) {
      value = value * 10 + digit;
      digits += 1;
      if (decimals >= 0) decimals += 1;
    } else if (bytes[at] === mark && decimals < 0 && digits > 0 && !whole) decimals = 0;
    else return NaN;
  }
  if (digits === 0 || digits > 15 || decimals === 0) return NaN;
  const wholes = decimals < 0 ? digits : digits - decimals;
  if (wholes > most) return NaN;
  // Both are whole numbers below 2^53, so that this is rounded once, as the text is.
  const plain = decimals > 0 ? value / POWERS[decimals] : value;
  const mm = (plain * times) / over;
  return negative && mm !== 0 ? -mm : mm;
}

/** Whether a cell is empty or blanks. */
export function isBlankCell(bytes: Uint8Array, start: number, end: number): boolean {
  for (let at = start; at < end; at += 1) {
    const byte = bytes[at];
    if (byte !== SPACE && byte !== 9 && byte !== 13) return false;
  }
  return true;
}
