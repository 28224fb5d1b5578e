/** A time in a log's `time` column as a number that grows with it: seconds or any other count as written, a clock
 *  time as `14:05:07.25`, or a date with one as `2026-05-01T14:05:07Z` (ISO 8601). Undefined where it is neither.
 *  Times of different forms cannot be compared; a log has one form. */
export function readTime(text: string): number | undefined {
  const plain = text.trim().replace(',', '.');
  if (/^-?\d{1,15}(\.\d{1,12})?$/.test(plain)) return Number(plain);
  const match =
    /^(?:(\d{4})-(\d{2})-(\d{2})[T ])?(\d{1,2}):(\d{2})(?::(\d{2}(?:\.\d{1,9})?))?(Z|[+-]\d{2}:?\d{2})?$/i.exec(
      plain,
    );
  if (match === null) return undefined;
  const [, year, month, day, hours, minutes, seconds = '0', zone] = match;
  const clock = Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
  if (Number(hours) > 24 || Number(minutes) > 59 || Number(seconds) >= 61) return undefined;
  const days =
    year === undefined ? 0 : Date.UTC(Number(year), Number(month) - 1, Number(day)) / 86_400_000;
  return days * 86_400 + clock - zoneSeconds(zone);
}

function zoneSeconds(zone: string | undefined): number {
  if (zone === undefined || /^z$/i.test(zone)) return 0;
  const size = Number(zone.slice(1, 3)) * 3600 + Number(zone.slice(-2)) * 60;
  return zone.startsWith('-') ? -size : size;
}

/** Whether a header names the column of times: `time`, `time_s`, `time (s)`. */
export function isTimeHeader(header: string): boolean {
  return /^time(_(s|ms)| ?\((s|ms)\))?$/i.test(header.trim());
}

export const TIME_EXPECTED = 'a time, as seconds, 14:05:07 or 2026-05-01T14:05:07';

/** What was expected of a time that lies before the one of an earlier row. */
export function backwards(row: number, text: string, called: string): string {
  return `not before ${text}, as row ${row} has: the log of ${called} runs forward in time`;
}
