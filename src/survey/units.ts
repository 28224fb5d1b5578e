/** Lengths are stored in mm. This is the one place that says what another unit is worth and how a length is
 *  shown in it; `readingText.ts` reads typed lengths through the same table.
 *
 *  To add a unit: add its name to `Unit` and its row to `UNITS`. Reading, headers and showing follow.
 *  1 in = 25.4 mm and 1 ft = 304.8 mm exactly: NIST SP 811 (2008), appendix B.8. */

export type Unit = 'mm' | 'cm' | 'm' | 'in' | 'ft';

export interface UnitFacts {
  /** Millimetres in one of it, exactly. */
  readonly mm: number;
  /** What people write behind the number, lower case. The first is how it is shown. */
  readonly names: readonly string[];
  /** The unit in a sentence. */
  readonly plural: string;
  /** A length in it, as an example of what is expected. */
  readonly example: string;
  /** Whether bare fractions (3/32) are written in this unit. */
  readonly fractions: boolean;
}

export const UNITS: Readonly<Record<Unit, UnitFacts>> = {
  mm: {
    mm: 1,
    names: ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
    plural: 'millimetres',
    example: '2.4',
    fractions: false,
  },
  cm: {
    mm: 10,
    names: ['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
    plural: 'centimetres',
    example: '15.5',
    fractions: false,
  },
  m: {
    mm: 1000,
    names: ['m', 'metre', 'metres', 'meter', 'meters'],
    plural: 'metres',
    example: '1.5',
    fractions: false,
  },
  in: {
    mm: 25.4,
    names: ['in', 'inch', 'inches', '"'],
    plural: 'inches',
    example: '3/32',
    fractions: true,
  },
  ft: {
    mm: 304.8,
    names: ['ft', 'foot', 'feet', "'"],
    plural: 'feet',
    example: '5',
    fractions: true,
  },
};

export const UNIT_LIST = Object.keys(UNITS) as readonly Unit[];

const byName: ReadonlyMap<string, Unit> = new Map(
  UNIT_LIST.flatMap((unit) => UNITS[unit].names.map((name) => [name, unit] as const)),
);

/** Millimetres in `parts / denominator` of a unit, rounded once where that can be: 3 in is 76.2 mm, not 76.19999. */
export function toMm(parts: number, unit: Unit, denominator = 1): number {
  const size = UNITS[unit].mm;
  return Number.isInteger(size)
    ? (parts * size) / denominator
    : (parts * (size * 10)) / (denominator * 10);
}

/** The unit that a word stands for ("inches", "mm", `"`), any case; undefined where it stands for none. */
export function unitNamed(word: string): Unit | undefined {
  return byName.get(word.trim().toLowerCase().replace(/\.$/, ''));
}

/** A unit as a column or a gauge has it. With a denominator, whole numbers count that part of it: 5 is 5/32. */
export interface CountedUnit {
  readonly unit: Unit;
  readonly denominator?: number;
}

/** Reads "mm", "inches" or "1/32 in"; undefined where it says no unit. */
export function readUnit(text: string): CountedUnit | undefined {
  const unit = unitNamed(text);
  if (unit !== undefined) return { unit };
  const counted = /^1\s*\/\s*([1-9]\d{0,3})\s*(\D+)$/.exec(text.trim());
  const of = counted === null ? undefined : unitNamed(counted[2] ?? '');
  if (counted === null || of === undefined) return undefined;
  return { unit: of, denominator: Number(counted[1]) };
}

/** "mm", "1/32 in": what `readUnit` reads back. */
export function showUnit(counted: CountedUnit): string {
  const name = UNITS[counted.unit].names[0] ?? counted.unit;
  return counted.denominator === undefined ? name : `1/${counted.denominator} ${name}`;
}

/** How fine a length is shown: to a number of decimals, or to the nearest part of a unit. */
export type ShownAs =
  | { readonly unit: Unit; readonly decimals: number }
  | { readonly unit: Unit; readonly denominator: number };

/** A length in mm as people read it, without its unit (that stands in the head): "5/32", "1 3/32", "2.4".
 *  Never finer than asked; fractions in lowest terms; halves round away from zero; no "-0".
 *  Throws RangeError where the length is not finite, or the fineness not a whole number. */
export function showLength(mm: number, as: ShownAs): string {
  if (!Number.isFinite(mm)) throw new RangeError(`length ${mm}: expected a finite number of mm`);
  const size = Math.abs(mm) / UNITS[as.unit].mm;
  if ('decimals' in as) {
    if (!Number.isInteger(as.decimals) || as.decimals < 0 || as.decimals > 6) {
      throw new RangeError(`${as.decimals} decimals: expected a whole number from 0 to 6`);
    }
    const scale = 10 ** as.decimals;
    const steps = roundHalfUp(size * scale);
    return sign(mm, steps) + (steps / scale).toFixed(as.decimals);
  }
  const { denominator } = as;
  if (!Number.isInteger(denominator) || denominator < 1) {
    throw new RangeError(`denominator ${denominator}: expected a whole number from 1`);
  }
  const parts = roundHalfUp(size * denominator);
  const whole = Math.floor(parts / denominator);
  const rest = parts % denominator;
  if (rest === 0) return sign(mm, parts) + String(whole);
  const shared = commonDivisor(rest, denominator);
  const fraction = `${rest / shared}/${denominator / shared}`;
  return sign(mm, parts) + (whole === 0 ? fraction : `${whole} ${fraction}`);
}

/** The nudge keeps 1.005 and 1/64 in from falling below the half that they stand for. */
function roundHalfUp(steps: number): number {
  return Math.floor(steps + 0.5 + steps * 4 * Number.EPSILON);
}

function sign(mm: number, steps: number): string {
  return mm < 0 && steps > 0 ? '-' : '';
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
