import { assess } from '../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { Line, Placement, Survey } from '../../src/survey/survey.ts';
import { seededNormals, type Shape } from '../fit/support.ts';
import { lineOf, placementOf, sample, stationsTo, surveyOf } from '../survey/madeSurveys.ts';

/** A sample survey, assessed as the house does. */
export function assessed(name: string): SurveyAssessment {
  return assess(sample(name));
}

/** A line read every 125 mm to 0.1 mm, with noise of its own. Heights in mm; a hollow is negative. */
export function readLine(
  name: string,
  shape: Shape,
  seed: number,
  more: Partial<Line> & { readonly laid?: Partial<Placement> } = {},
): Line {
  const noise = seededNormals(seed);
  const { laid, ...rest } = more;
  const stations = stationsTo(1500, 125);
  return lineOf(
    [placementOf(stations, (x) => 2 - shape(x) + 0.06 * noise(), { id: `${name}/1/1`, ...laid })],
    {
      id: name,
      name,
      side: name.startsWith('S') ? 'starboard' : name.startsWith('C') ? 'centre' : 'port',
      offset: Number(name.replace(/\D/g, '')),
      ...rest,
    },
  );
}

export function surveyed(
  date: string,
  lines: readonly Line[],
  more: Partial<Survey> = {},
): SurveyAssessment {
  return assess(surveyOf(lines, { date, ...more }));
}

/** A rounded hollow of a depth over the aft two thirds. */
export const hollowOf =
  (depth: number): Shape =>
  (x) =>
    x >= 1000 ? 0 : -depth * Math.sin((Math.PI * x) / 1000) ** 2;
