import { withUnit } from '../../src/survey/withUnit.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { measuredParts, showTolerance, type WorkUnit } from '../../src/survey/figures.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import { capital } from '../../src/survey/sentence.ts';
import type { Survey } from '../../src/survey/survey.ts';

/** Facts of the hull and of the haul-out, as they stand on the last page. */
export interface Fact {
  readonly label: string;
  readonly value: string;
}

/** What the hull stands on, in its order; that nobody said so, where nobody did. */
export function standsOn(survey: Survey): string {
  const support = survey.support.map(({ what, at, engine, checkedBy }) =>
    [
      what,
      ...(at === undefined ? [] : [`since ${at}`]),
      ...(engine === undefined ? [] : [`engine ${engine}`]),
      ...(checkedBy === undefined ? [] : [`checked by ${checkedBy}`]),
    ].join(', '),
  );
  return support.length === 0 ? 'what it stands on is not stated' : support.join('; then ');
}

export function hullFacts(state: HullState | undefined, unit: WorkUnit): readonly Fact[] {
  const hull = state?.hull;
  if (hull === undefined) return [];
  const { hin, year, length, beamAtChine, deadrise, propulsion } = hull;
  return facts([
    ['HIN', hin],
    ['Year', year === undefined ? undefined : String(year)],
    ['Length', length && withUnit(length, unit)],
    ['Beam at chine', beamAtChine && withUnit(beamAtChine, unit)],
    ['Deadrise', deadrise && `${deadrise.degrees}°`],
    ['Propulsion', propulsion],
  ]);
}

export function conditionFacts({
  assessment,
  place,
  by,
  unit,
}: {
  readonly assessment: SurveyAssessment;
  readonly place?: string;
  readonly by?: string;
  readonly unit: WorkUnit;
}): readonly Fact[] {
  const { survey, repeatability } = assessment;
  const radius = survey.transomRadius;
  const spread = measuredParts(0, repeatability.mm / 2, unit).spread;
  return facts([
    ['Place', place],
    ['Measured by', by],
    ['Stands on', survey.support.length === 0 ? undefined : standsOn(survey)],
    [
      'Transom edge',
      radius === undefined
        ? undefined
        : radius === 0
          ? 'sharp'
          : `radius ${showTolerance(radius, unit)}: nothing was read on it. The first figure is carried straight aft to the transom.`,
    ],
    ...Object.entries(survey.conditions)
      .filter(([about]) => !/^(transom radius|tolerance|limit of the straight run)$/i.test(about))
      .map(([about, said]): readonly [string, string] => [capital(about), said]),
    ['Repeatability', `${spread} ${unit}, ${repeatability.from}`],
  ]);
}

function facts(
  rows: readonly (readonly [label: string, value: string | undefined])[],
): readonly Fact[] {
  return rows.flatMap(([label, value]) =>
    value === undefined || value.trim() === '' ? [] : [{ label, value }],
  );
}
