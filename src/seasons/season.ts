/** The day of a date or time in ISO 8601 ("2026-04-16", "2026-04-16T09:30+02:00"), as written there: a haul-out is
 *  of a day, whatever the zone. Undefined where it is no such date. */
export function dayOf(text: string | undefined): string | undefined {
  const day = text === undefined ? null : /^\s*(\d{4}-\d\d-\d\d)(?=$|[T\s])/.exec(text);
  if (day === null) return undefined;
  return showDay(daysOf(day[1])) === day[1] ? day[1] : undefined;
}

/** Days since 1970-01-01 of a day as `dayOf` gives it. */
export function daysOf(day: string): number {
  return Math.round(Date.parse(`${day}T00:00:00Z`) / 86_400_000);
}

/** The inverse: "2026-04-16". Part days count to the day they fall on. Undefined beyond the calendar's four digits. */
export function showDay(days: number): string | undefined {
  const time = new Date(Math.floor(days) * 86_400_000);
  if (Number.isNaN(time.getTime())) return undefined;
  const text = time.toISOString().slice(0, 10);
  return /^\d{4}-/.test(text) ? text : undefined;
}

/** Mean length of a year of the calendar in use: 365 + 97/400. */
export const DAYS_A_YEAR = 365.2425;
