import { readLength } from './readingText.ts';
import { UNITS, showLength, type Unit } from './units.ts';

const FINEST = 64;

/** A decimal, without unit, that reads back in this unit to exactly this many mm; undefined where none does. In mm
 *  there is one for 0 and for any length from 1e-9 to 1e9 mm. */
export function exactDecimal(mm: number, unit: Unit): string | undefined {
  const size = mm / UNITS[unit].mm;
  return [plain(Number(size.toPrecision(12))), plain(size)].find((text) => readsAs(text, unit, mm));
}

/** A length with its unit that reads back to exactly this many mm: in the wanted unit as a rule shows it (1/32 in) or
 *  as a decimal where that is exact and no longer than the mm, else in mm. */
export function exactLength(mm: number, wanted: Unit): string {
  const name = UNITS[wanted].names[0] ?? wanted;
  if (UNITS[wanted].fractions) {
    const fraction = showLength(mm, { unit: wanted, denominator: FINEST });
    if (readsAs(fraction, wanted, mm)) return `${fraction} ${name}`;
  }
  const inMm = `${plain(mm)} mm`;
  const decimal = exactDecimal(mm, wanted);
  return decimal === undefined || decimal.length > inMm.length ? inMm : `${decimal} ${name}`;
}

function readsAs(text: string, unit: Unit, mm: number): boolean {
  const read = readLength(text, { unit });
  return read.ok && read.mm === mm;
}

/** Shortest digits that read back to the same number, never in powers of ten. */
function plain(value: number): string {
  const [digits = '', power] = String(value).split('e-');
  if (power === undefined) return digits;
  const sign = digits.startsWith('-') ? '-' : '';
  return `${sign}0.${'0'.repeat(Number(power) - 1)}${digits.replace(/[-.]/g, '')}`;
}
