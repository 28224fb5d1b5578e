import type { Entry } from '../book/entry.ts';
import { surveyKeyOf } from '../survey/fold/hullOf.ts';
import { readStanding, type Stated } from '../survey/fold/readStanding.ts';
import type { SurveyState } from '../survey/fold/surveyOf.ts';
import { CONDITION } from '../survey/kinds/condition.ts';
import { draftOf, type Draft } from '../survey/kinds/draft.ts';

/** What a survey begins with that is made to check the work done to a worksheet: the same unit, stations, edge, gauge
 *  and way of holding it, the same tolerance and limit, and which sheet it checks.
 *  `first`: the survey that the sheet was made from; `standing`: everything of the hull. */
export function checkDrafts(
  first: SurveyState,
  sheet: Stated<'sheet'>,
  standing: readonly Entry[],
  { date, by }: { readonly date: string; readonly by: string },
): readonly Draft[] {
  const { survey, plan } = first;
  const kept: readonly string[] = [CONDITION.tolerance, CONDITION.limit, CONDITION.transomRadius];
  const conditions = readStanding(standing.filter(({ _id }) => surveyKeyOf(_id) === first.key))
    .of('condition')
    .filter(({ body }) => kept.includes(body.about));
  const stations = new Map(plan.stations.map((station) => [Math.round(station.mm), station]));
  for (const { station } of sheet.body.figures) stations.set(Math.round(station.mm), station);
  return [
    draftOf('survey', {
      date,
      ...(by !== '' && { by }),
      workUnit: survey.workUnit,
      measured: 'hand',
      stations: [...stations.values()].sort((a, b) => a.mm - b.mm),
      ...(plan.edge !== undefined && { edge: plan.edge }),
      ...(plan.gauge !== undefined && { gauge: plan.gauge }),
      ...(plan.held !== undefined && { held: plan.held }),
      checks: sheet.id,
    }),
    ...conditions.map(({ body }) => draftOf('condition', body)),
  ];
}
