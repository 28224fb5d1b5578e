/** Dates as the person's language writes them. What is kept stays as the standard has it (ISO 8601). `locale`: the
 *  browser's own where none is given. */

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
