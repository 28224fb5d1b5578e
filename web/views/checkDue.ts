import { dayOf, daysOf, showDay } from '../../src/seasons/season.ts';

/** Months from a survey to the next check, where nobody says otherwise. A house default, no source. */
export const CHECK_EVERY = 12;

/** So many days before its day a check is said to come up. A house default. */
export const COMES_UP = 30;

export type DueState = 'due' | 'comes up' | 'not due' | 'not measured' | 'no date';

export interface Due {
  readonly state: DueState;
  /** The day of the next check; absent where there is none to count from. */
  readonly day?: string;
  /** Days from today to it, negative once it is past. */
  readonly inDays?: number;
}

/** When a hull is to be checked next: so many months after the day of its last survey, on the same day of the month or
 *  its last (29 February, a year on: 28 February). `today`: as 2026-03-14. `last`: the date as it was written;
 *  undefined where nobody gave one. */
export function checkDue(
  surveys: number,
  last: string | undefined,
  months: number,
  today: string,
): Due {
  if (surveys === 0) return { state: 'not measured' };
  const from = dayOf(last);
  const day = from === undefined ? undefined : monthsAfter(from, months);
  if (day === undefined) return { state: 'no date' };
  const inDays = daysOf(day) - daysOf(today);
  const state = inDays <= 0 ? 'due' : inDays <= COMES_UP ? 'comes up' : 'not due';
  return { state, day, inDays };
}

/** The same day of the month some months later, or that month's last day where it is shorter. */
export function monthsAfter(day: string, months: number): string | undefined {
  const [year, month, date] = day.split('-').map(Number);
  const count = 12 * year + (month - 1) + months;
  const next = Date.UTC(Math.floor(count / 12), (count % 12) + 1, 0) / 86_400_000;
  const lastDate = new Date(next * 86_400_000).getUTCDate();
  return showDay(next - lastDate + Math.min(date, lastDate));
}
