/** Dates and figures as the person's language writes them, on the screen. What is kept, printed and saved stays as the
 *  standards have it (ISO 8601, a decimal point). `locale`: the browser's own where none is given. */

const DAY: Intl.DateTimeFormatOptions = { dateStyle: 'medium' };

/** A calendar day, "2026-03-14"; a text that is none comes back as it is. */
export function dayText(day: string, locale?: string): string {
  const instant = Date.parse(`${day}T00:00:00Z`);
  // Parsing takes the 31st of a shorter month for a day of the next.
  if (!Number.isFinite(instant) || new Date(instant).toISOString().slice(0, 10) !== day) return day;
  return formatter(locale, { ...DAY, timeZone: 'UTC' }).format(instant);
}

/** A moment (ISO 8601 with a zone), by the clock on the wall; a text that is none comes back as it is. */
export function dayAndTimeText(at: string, locale?: string, timeZone?: string): string {
  const instant = Date.parse(at);
  if (!Number.isFinite(instant)) return at;
  const zone = timeZone === undefined ? {} : { timeZone };
  return formatter(locale, { ...DAY, timeStyle: 'short', ...zone }).format(instant);
}

/** A figure by itself: no part of a name or a version, no thousands. */
const FIGURE = /(?<![\w.,])(\d+)\.(\d+)(?![\d.,]*\d)/g;
/** A day, or a moment with its zone: no part of a name. */
const TIME =
  /((?<![\w-])\d{4}-\d\d-\d\d(?:T\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:\d\d))?(?![\w-]))/;

/** A text whose figures have the language's decimal mark: "2.1 mm" is "2,1 mm" where that is how it is written. */
export function figuresText(text: string, locale?: string): string {
  const mark = decimalMark(locale);
  return mark === '.' ? text : text.replace(FIGURE, `$1${mark}$2`);
}

/** A figure that was typed, as it is kept: with a decimal point. Where a comma is the language's decimal mark it is one
 *  here; elsewhere it is left to be understood or refused by whoever reads the text. */
export function pointed(typed: string, locale?: string): string {
  return decimalMark(locale) === '.' ? typed : typed.replace(/,(?=\d)/g, '.');
}

/** A running text with its figures, days and moments as the language writes them. */
export function localText(text: string, locale?: string, timeZone?: string): string {
  return text
    .split(TIME)
    .map((part, place) => {
      if (place % 2 === 0) return figuresText(part, locale);
      return part.includes('T') ? dayAndTimeText(part, locale, timeZone) : dayText(part, locale);
    })
    .join('');
}

const marks = new Map<string | undefined, string>();

function decimalMark(locale: string | undefined): string {
  const found = marks.get(locale);
  if (found !== undefined) return found;
  const parts = new Intl.NumberFormat(locale).formatToParts(1.5);
  const mark = parts.find(({ type }) => type === 'decimal')?.value ?? '.';
  // Figures here are written in these digits everywhere, so other marks than these two would look out of place.
  const shown = mark === ',' ? ',' : '.';
  marks.set(locale, shown);
  return shown;
}

const known = new Map<string, Intl.DateTimeFormat>();

/** Making one takes a millisecond, using it none. */
function formatter(
  locale: string | undefined,
  options: Intl.DateTimeFormatOptions,
): Intl.DateTimeFormat {
  const key = JSON.stringify([locale, options]);
  const made = known.get(key) ?? new Intl.DateTimeFormat(locale, options);
  known.set(key, made);
  return made;
}
