import type { Entry } from '../../book/entry.ts';
import { NO_SURVEY, parseId } from '../../book/id.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import { surveyKeyOf } from './hullOf.ts';
import { readStanding } from './readStanding.ts';
import type { Disagreement, Unused } from './report.ts';
import { thingsOf } from './thingsOf.ts';

/** A survey of a hull, in a line of a list. */
export interface SurveyLine {
  readonly key: string;
  /** Absent where nobody gave one, or the entry that does has not arrived. */
  readonly date?: string;
  readonly place?: string;
  readonly by?: string;
  /** Id of the worksheet whose work it was made to check. */
  readonly checks?: string;
  /** Standing entries that carry its key. */
  readonly entries: number;
}

export interface SurveyList {
  /** By date, as written; those without one last; those of one day in the order in which they were begun. */
  readonly surveys: readonly SurveyLine[];
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
}

/** The surveys of a hull, from its standing entries in whatever order. A survey whose own entry has not arrived yet is
 *  listed too. Throws RangeError on an entry whose id has no such form. */
export function surveysOf(standing: readonly Entry[]): SurveyList {
  const found = new Map<string, { entries: number; begun: number }>();
  for (const { _id } of standing) {
    const parsed = parseId(_id);
    if (!parsed.ok) throw new RangeError(`id: got ${JSON.stringify(_id)}: ${parsed.reason}`);
    const { survey: key, time } = parsed;
    if (key === NO_SURVEY) continue;
    const known = found.get(key);
    if (known === undefined) found.set(key, { entries: 1, begun: time });
    else {
      known.entries += 1;
      known.begun = Math.min(known.begun, time);
    }
  }
  const read = readStanding(standing.filter((entry) => entry.kind === 'survey'));
  const things = thingsOf(
    read.of('survey'),
    ({ id }) => surveyKeyOf(id),
    ({ id }) => `the survey ${surveyKeyOf(id)}`,
  );
  const bodies = new Map<string, BodyOf<'survey'>>();
  for (const { id, shown } of things.list) bodies.set(id, shown.body);
  const surveys = [...found].map(([key, { entries }]): SurveyLine => {
    const body = bodies.get(key);
    return {
      key,
      ...(body?.date !== undefined && { date: body.date }),
      ...(body?.place !== undefined && { place: body.place }),
      ...(body?.by !== undefined && { by: body.by }),
      ...(body?.checks !== undefined && { checks: body.checks }),
      entries,
    };
  });
  const begun = ({ key }: SurveyLine): number => found.get(key)?.begun as number;
  surveys.sort((a, b) => byDate(a.date, b.date) || begun(a) - begun(b) || (a.key < b.key ? -1 : 1));
  return { surveys, disagreements: things.disagreements, setAside: read.setAside };
}

function byDate(a: string | undefined, b: string | undefined): number {
  if (a === undefined || b === undefined) return Number(a === undefined) - Number(b === undefined);
  return a < b ? -1 : a > b ? 1 : 0;
}
