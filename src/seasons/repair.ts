import type { Line } from '../survey/survey.ts';

/** Work done on the bottom on a day: what was read before and after are two different bottoms.
 *  `date`: ISO 8601. `lines`: ids or names of those that were worked; absent where any may have been. */
export interface Repair {
  readonly date: string;
  readonly what: string;
  readonly lines?: readonly string[];
}

export function touches({ lines }: Repair, { id, name }: Pick<Line, 'id' | 'name'>): boolean {
  return lines === undefined || lines.includes(id) || lines.includes(name);
}
