import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { PlannedLine } from '../../src/survey/canProve.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import { readLength } from '../../src/survey/readingText.ts';
import { gaugeBody, plannedStations, type SetupAnswers } from './setupView.ts';
import { plannedLine } from './toleranceView.ts';

/** A line as it would be read by what is answered so far, to say before the first reading what that can prove: whoever
 *  hears it at the verdict has the boat back in the water. `bare`: the survey's tolerance and limit. Absent while the
 *  gauge or the first station cannot be used. */
export function plannedBefore(
  { gauge, division, reads, firstStation }: SetupAnswers,
  hull: HullState,
  bare: SurveyAssessment,
): PlannedLine | undefined {
  const body =
    gauge === '' ? gaugeBody(division, reads) : hull.gauges.find(({ id: each }) => each === gauge);
  const { workUnit: unit } = bare.survey;
  const first = readLength(firstStation, { unit });
  if (body?.division === undefined || !first.ok) return undefined;
  const stations = plannedStations({ mm: first.mm, text: first.text }, bare.limit.mm, unit);
  return plannedLine(bare, stations, body.division.mm);
}
