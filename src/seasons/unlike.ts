/** What must be alike in two surveys for a difference between them to be the hull's. */
export const ALIKE = [
  'repair',
  'support',
  'engine',
  'surface',
  'edge',
  'hours since haul',
  'days afloat',
] as const;

export type AlikeWhat = (typeof ALIKE)[number];

/** One thing in which two surveys differ, or of which one or both say nothing. `first` and `second`: as each survey
 *  states it; absent where it states nothing. What differs stands in the way of a comparison until somebody accepts
 *  it knowingly; what is not known is said and stands in nobody's way. */
export interface Unlike {
  readonly what: AlikeWhat;
  readonly first?: string;
  readonly second?: string;
  readonly known: 'differs' | 'not stated';
  /** Names of the lines it concerns; absent where it concerns all. */
  readonly lines?: readonly string[];
  readonly accepted: boolean;
}

/** Whether it stands in the way of comparing a line of that name. */
export function standsInTheWay(unlike: Unlike, line: string): boolean {
  if (unlike.known !== 'differs' || unlike.accepted) return false;
  return unlike.lines === undefined || unlike.lines.includes(line);
}
