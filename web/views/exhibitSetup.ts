import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { measuredParts, type WorkUnit } from '../../src/survey/figures.ts';
import { CONDITION } from '../../src/survey/kinds/condition.ts';
import { readingCount } from '../../src/survey/usableColumns.ts';
import { conditionFacts, type Fact } from './sheetFacts.ts';
import { plainLength } from './sheetLaid.ts';

export interface SetupFrom {
  readonly assessment: SurveyAssessment;
  readonly unit: WorkUnit;
  readonly place?: string;
  readonly by?: string;
}

/** What an exhibit has to say of a haul-out, whether or not somebody stated it. */
const ALWAYS = ['Place', 'Weather', 'Measured by'] as const;
const ELSEWHERE = new Set(['Stands on', 'Repeatability', 'Made for', 'Repair']);

/** Date, place, weather and every other condition; what must be there and is not stated says so. */
export function occasionFacts(from: SetupFrom): readonly Fact[] {
  const said = conditionFacts(from).filter(({ label }) => !ELSEWHERE.has(label));
  const value = (label: string) => said.find((fact) => fact.label === label)?.value;
  return [
    { label: 'Date', value: from.assessment.survey.date ?? 'not stated' },
    ...ALWAYS.map((label) => ({ label, value: value(label) ?? 'not stated' })),
    ...said.filter(({ label }) => !ALWAYS.some((each) => each === label)),
  ];
}

/** Whom it was made for, as stated. */
export function madeFor({ conditions }: SurveyAssessment['survey']): string | undefined {
  const [, said] =
    Object.entries(conditions).find(
      ([about]) => about.trim().toLowerCase() === CONDITION.madeFor,
    ) ?? [];
  return said === undefined || said.trim() === '' ? undefined : said;
}

/** What the hull stood on, one after the other. */
export function supportSteps({ support }: SurveyAssessment['survey']): readonly string[] {
  return support.map(({ what, at, engine, checkedBy }) =>
    [
      what,
      at === undefined ? 'since when is not stated' : `since ${at}`,
      engine === undefined ? 'engine hung, held or off: not stated' : `engine ${engine}`,
      checkedBy === undefined ? 'nobody is named as having checked it' : `checked by ${checkedBy}`,
    ].join('; '),
  );
}

/** Straightedges with what their checks showed, gauges, and how well a reading repeats; a sentence each. */
export function instrumentWords(
  { edges, repeatability, survey }: SurveyAssessment,
  unit: WorkUnit,
): readonly string[] {
  const laid = survey.lines
    .flatMap(({ placements }) => placements)
    .filter((placement) => readingCount(placement) > 0);
  const gauges = new Set(
    laid.map(({ gauge, division, reads }) =>
      [
        gauge === undefined ? 'A gauge without a name' : `The gauge “${gauge}”`,
        division === undefined
          ? ': what it is read to is not stated'
          : ` was read to ${plainLength(division, unit)}`,
        reads === undefined
          ? ''
          : reads === 'nearest mark'
            ? ', the nearest mark'
            : ', the last leaf that went in',
        '. No check of it is recorded.',
      ].join(''),
    ),
  );
  const { spread } = measuredParts(0, repeatability.mm / 2, unit);
  const from = {
    repeats: 'found from readings that were repeated in this survey',
    stated: 'as stated for this survey',
    'house default': 'taken as half a division of the gauge, a house default: nothing was repeated',
  }[repeatability.from];
  return [
    ...edges.flatMap(({ words }) => words),
    ...gauges,
    `A reading repeats within a standard uncertainty of ${spread} ${unit}: ${from}.`,
  ];
}
