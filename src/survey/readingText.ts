import { UNITS, UNIT_LIST, toMm, type CountedUnit, type Unit } from './units.ts';

export interface ReadLengthOptions extends Partial<CountedUnit> {
  /** The decimal mark of the file, where it is known. Where it is not, "1,234" is refused: it may mean 1234. */
  readonly decimal?: '.' | ',';
}

export type LengthRead =
  | {
      readonly ok: true;
      readonly mm: number;
      /** As typed; where whole numbers count parts of a unit, written in full: "5" is "5/32". */
      readonly text: string;
      readonly unit: Unit;
      /** True where the text itself says the unit. */
      readonly stated: boolean;
    }
  | {
      readonly ok: false;
      readonly reason: 'absent' | 'no unit' | 'unreadable';
      readonly found: string;
      readonly expected: string;
    };

const LONGEST = 40;
const PLAIN = /^-?\d{1,9}(?:\.\d{1,28})?$/;

const suffix = new RegExp(
  `^(.*?)\\s*(${UNIT_LIST.flatMap((unit) => [...UNITS[unit].names])
    .sort((a, b) => b.length - a.length)
    .join('|')})\\.?$`,
  'i',
);

/** Reads a length as people write it: `3/32`, `1 3/32`, `1-3/32`, `1½`, `0.8`, `0,8`, `2.4 mm`, `3/32"`, `-.5`.
 *  A unit in the text goes before the one given. Nothing is guessed: a bare fraction of a mm, a comma that may
 *  mark thousands, and a number without any unit are refused in plain words. Empty text is `absent`, not 0. */
export function readLength(text: string, options: ReadLengthOptions = {}): LengthRead {
  const typed = text.trim();
  // Nearly every cell of a long log is a plain number: answered before the marks are looked at.
  if (options.unit !== undefined && options.denominator === undefined && options.decimal !== ',') {
    if (PLAIN.test(typed))
      return found(toMm(Number(typed), options.unit), typed, options.unit, undefined);
  }
  if (typed === '') return refuse('absent', '', `a length, ${examples(options)}`);
  if (typed.length > LONGEST) return refuse('unreadable', typed, `a length, ${examples(options)}`);

  const { body, unit: stated } = splitUnit(plainMarks(typed));
  const unit = stated ?? options.unit;
  if (unit === undefined) {
    return number(body, options.decimal).ok || fraction(body).ok
      ? refuse('no unit', typed, 'a length with its unit, such as 2.4 mm or 3/32 in')
      : refuse('unreadable', typed, 'a length with its unit, such as 2.4 mm or 3/32 in');
  }
  const parts = stated === undefined ? options.denominator : undefined;

  if (body.includes('/')) {
    const read = fraction(body);
    if (!read.ok) return refuse('unreadable', typed, read.expected);
    if (stated === undefined && !UNITS[unit].fractions) {
      return refuse(
        'unreadable',
        typed,
        `${UNITS[unit].plural} as a decimal, such as ${UNITS[unit].example}, or the fraction with its unit, such as 3/32 in`,
      );
    }
    return found(toMm(read.parts, unit, read.denominator), typed, unit, stated);
  }

  const read = number(body, options.decimal);
  if (!read.ok)
    return refuse('unreadable', typed, read.expected ?? `a length, ${examples(options)}`);
  if (parts === undefined) return found(toMm(read.value, unit), typed, unit, stated);
  if (!Number.isInteger(read.value)) {
    return refuse(
      'unreadable',
      typed,
      `a whole number of 1/${parts} ${UNITS[unit].names[0] ?? unit}, or a fraction such as 3/${parts}`,
    );
  }
  return found(toMm(read.value, unit, parts), inFull(read.value, parts), unit, stated);
}

function found(mm: number, text: string, unit: Unit, stated: Unit | undefined): LengthRead {
  return { ok: true, mm: mm === 0 ? 0 : mm, text, unit, stated: stated !== undefined };
}

function refuse(
  reason: 'absent' | 'no unit' | 'unreadable',
  text: string,
  expected: string,
): LengthRead {
  const shown = text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
  return { ok: false, reason, found: shown, expected };
}

function examples({ unit, denominator }: ReadLengthOptions): string {
  if (unit === undefined) return 'such as 2.4 mm or 3/32 in';
  const name = UNITS[unit].names[0] ?? unit;
  if (denominator !== undefined) {
    return `a whole number of 1/${denominator} ${name} or a fraction such as 3/${denominator}`;
  }
  return unit === 'in'
    ? 'inches such as 3/32, 1 3/32 or 0.8'
    : `${UNITS[unit].plural} such as ${UNITS[unit].example}`;
}

/** One spelling for the marks that keyboards, tablets and word processors vary. */
function plainMarks(text: string): string {
  return text
    .replace(/[\u00bc-\u00be\u2150-\u215e]/gu, (vulgar) => ` ${vulgar.normalize('NFKC')}`)
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u2033\u201d]|''/g, '"')
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/\s+/g, ' ')
    .replace(/^(-?) +/, '$1');
}

function splitUnit(text: string): { body: string; unit?: Unit } {
  const match = suffix.exec(text);
  const word = match?.[2]?.toLowerCase();
  const unit = UNIT_LIST.find((each) => word !== undefined && UNITS[each].names.includes(word));
  return unit === undefined || match === null ? { body: text } : { body: match[1] ?? '', unit };
}

type NumberRead = { ok: true; value: number } | { ok: false; expected?: string };

function number(body: string, decimal: '.' | ',' | undefined): NumberRead {
  const match = /^(-?)(\d{0,9})(?:([.,])(\d{1,30}))?$/.exec(body);
  if (match === null) {
    const thousands = /^-?\d{1,3}([.,' ]\d{3})+([.,]\d*)?$/.test(body);
    return thousands
      ? { ok: false, expected: 'one decimal mark and no thousands marks, such as 1234.5' }
      : /^-?(\d+(\.\d*)?e[-+]?\d+|\d{10,})/i.test(body)
        ? {
            ok: false,
            expected: 'a length written out, of nine figures at most before its decimals',
          }
        : { ok: false };
  }
  const [, minus = '', whole = '', mark, digits = ''] = match;
  if (whole === '' && digits === '') return { ok: false };
  const maybeThousands = digits.length === 3 && /^[1-9]\d{0,2}$/.test(whole);
  if (maybeThousands && decimal !== mark && (mark === ',' || decimal === ',')) {
    return {
      ok: false,
      expected: `${whole}${digits} or ${whole}.${digits}: the mark may be a thousands or a decimal mark`,
    };
  }
  return { ok: true, value: Number(`${minus}${whole || '0'}.${digits || '0'}`) };
}

type FractionRead =
  { ok: true; parts: number; denominator: number } | { ok: false; expected: string };

function fraction(body: string): FractionRead {
  const match = /^(-?)(?:(\d{1,6})(?: ?- ?| ))?(\d{1,6}) ?\/ ?(\d{1,6})$/.exec(body);
  if (match === null) {
    return { ok: false, expected: 'a whole fraction, such as 5/32 or 1 3/32' };
  }
  const [, minus, whole, over, under] = match;
  const numerator = Number(over);
  const denominator = Number(under);
  if (denominator === 0) {
    return { ok: false, expected: 'a fraction whose lower number is not 0, such as 5/32' };
  }
  if (whole !== undefined && numerator >= denominator) {
    return {
      ok: false,
      expected: 'a part smaller than one after the whole number, such as 1 3/32',
    };
  }
  const parts = whole === undefined ? numerator : Number(whole) * denominator + numerator;
  return { ok: true, parts: minus === '-' ? -parts : parts, denominator };
}

function inFull(count: number, parts: number): string {
  const size = Math.abs(count);
  const whole = Math.floor(size / parts);
  const rest = size % parts;
  const sign = count < 0 ? '-' : '';
  if (rest === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${rest}/${parts}` : `${sign}${whole} ${rest}/${parts}`;
}
