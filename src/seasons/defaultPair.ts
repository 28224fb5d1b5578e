import type { Repair } from './repair.ts';
import { dayOf } from './season.ts';

/** A survey as a list knows it. */
export interface Listed {
  readonly key: string;
  readonly date?: string;
}

/** Which two surveys are set side by side unless somebody chooses others: the newest, and the first since the last
 *  repair, or, where there is none, the one before it. `surveys`: in order of time; those without a date last, and
 *  taken only where fewer than two have one. Undefined where there are not two. */
export function defaultPair(
  surveys: readonly Listed[],
  repairs: readonly Repair[],
): readonly [first: string, second: string] | undefined {
  const dated = surveys.filter(({ date }) => dayOf(date) !== undefined);
  const from = dated.length < 2 ? surveys : dated;
  const newest = from.at(-1);
  const before = from.at(-2);
  if (newest === undefined || before === undefined) return undefined;
  const repaired = repairs.at(-1);
  const since =
    repaired === undefined
      ? undefined
      : dated.find(({ date }) => String(dayOf(date)) >= repaired.date);
  const first = since === undefined || since.key === newest.key ? before : since;
  return [first.key, newest.key];
}
