import type { Entry } from '../book/entry.ts';
import { surveyKeyOf } from '../survey/fold/hullOf.ts';
import { readStanding, type Stated } from '../survey/fold/readStanding.ts';

/** The worksheets issued for a survey, by number, then by id; two tablets may have issued one number each. */
export function sheetsOf(
  standing: readonly Entry[],
  surveyKey: string,
): readonly Stated<'sheet'>[] {
  const read = readStanding(standing.filter(({ _id }) => surveyKeyOf(_id) === surveyKey));
  return [...read.of('sheet')].sort(
    (a, b) => a.body.number - b.body.number || (a.id < b.id ? -1 : 1),
  );
}
