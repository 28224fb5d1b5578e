import type { Survey } from '../survey/survey.ts';
import type { Repair } from './repair.ts';
import { dayOf } from './season.ts';

/** The condition under which a file states a repair: "2026-03-14; P450, P700; filled and faired". The lines may be
 *  left out where any may have been worked; several repairs stand on lines of their own. */
export const REPAIR_CONDITION = 'repair';

/** Repairs that surveys state, each once, in order of time; `unreadable`: those that begin with no date, as written. */
export function repairsStated(surveys: readonly Survey[]): {
  readonly repairs: readonly Repair[];
  readonly unreadable: readonly string[];
} {
  const texts = surveys.flatMap(({ conditions }) => {
    const key = Object.keys(conditions).find((k) => k.trim().toLowerCase() === REPAIR_CONDITION);
    return key === undefined ? [] : conditions[key].split('\n');
  });
  const repairs: Repair[] = [];
  const unreadable: string[] = [];
  for (const text of new Set(texts.map((each) => each.trim()))) {
    const repair = readRepair(text);
    if (repair === undefined) unreadable.push(text);
    else repairs.push(repair);
  }
  return { repairs: repairs.sort((a, b) => (a.date < b.date ? -1 : 1)), unreadable };
}

/** Reads "DAY; LINES; WHAT" or "DAY; WHAT"; undefined where it begins with no day or says nothing more. */
export function readRepair(text: string): Repair | undefined {
  const [date = '', ...rest] = text.split(';').map((part) => part.trim());
  const day = dayOf(date);
  const what = rest.at(-1);
  if (day === undefined || what === undefined || what === '') return undefined;
  if (rest.length === 1) return { date: day, what };
  const lines = rest[0].split(',').map((name) => name.trim());
  return { date: day, what: rest.slice(1).join('; '), lines: lines.filter((name) => name !== '') };
}
