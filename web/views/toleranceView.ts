import type { Repeatability, SurveyAssessment } from '../../src/survey/assessment.ts';
import { HOUSE_TOLERANCE } from '../../src/survey/assess.ts';
import type { PlannedLine } from '../../src/survey/canProve.ts';
import { showTolerance } from '../../src/survey/figures.ts';
import { CONDITION } from '../../src/survey/kinds/condition.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { readLength } from '../../src/survey/readingText.ts';
import type { Typed } from '../../src/survey/survey.ts';
import { showLength } from '../../src/survey/units.ts';
import { houseDivision, readingUncertainty } from '../../src/survey/usable.ts';

/** Tolerance and limit as typed. */
export interface ToleranceAnswers {
  readonly gap: string;
  readonly over: string;
  readonly setBy: string;
  readonly limit: string;
}

/** What stands, or the house defaults to start from: 1.5 mm over 1500 mm, 60 in or 1500 mm. */
export function toleranceDefaults(
  { survey, tolerance, limit }: Pick<SurveyAssessment, 'survey' | 'tolerance' | 'limit'>,
  unit: 'mm' | 'in',
  person: string,
): ToleranceAnswers {
  const said = survey.conditions[CONDITION.tolerance] ?? '';
  const asTyped = tolerance.houseDefault ? null : /^(.+) over (.+)$/.exec(said);
  const house = tolerance.houseDefault ? 'mm' : undefined;
  return {
    gap: asTyped?.[1] ?? showTolerance(tolerance.gap, house ?? unit),
    over: asTyped?.[2] ?? showTolerance(tolerance.over, house ?? unit),
    setBy: tolerance.setBy ?? person,
    limit: showTolerance(limit.mm, unit),
  };
}

export type ToleranceRead =
  | {
      readonly ok: true;
      readonly tolerance: BodyOf<'condition'>;
      readonly limit: BodyOf<'condition'>;
    }
  | {
      readonly ok: false;
      readonly problems: Readonly<Partial<Record<keyof ToleranceAnswers, string>>>;
    };

export function readTolerance(answers: ToleranceAnswers, unit: 'mm' | 'in'): ToleranceRead {
  const problems: Partial<Record<keyof ToleranceAnswers, string>> = {};
  const length = (name: 'gap' | 'over' | 'limit'): Typed | undefined => {
    const read = readLength(answers[name], { unit });
    if (read.ok && read.mm > 0) {
      return { mm: read.mm, text: read.stated ? read.text : `${read.text} ${read.unit}` };
    }
    problems[name] = read.ok
      ? 'Expected a length above 0.'
      : `Found “${read.found}”, expected ${read.expected}.`;
    return undefined;
  };
  const [gap, over, limit] = [length('gap'), length('over'), length('limit')];
  if (answers.setBy.trim() === '') problems.setBy = 'Say who set it.';
  if (gap === undefined || over === undefined || limit === undefined || problems.setBy) {
    return { ok: false, problems };
  }
  const said = `${gap.text} over ${over.text}`;
  return {
    ok: true,
    tolerance: { about: CONDITION.tolerance, said, gap, over, setBy: answers.setBy.trim() },
    limit: { about: CONDITION.limit, said: limit.text, length: limit },
  };
}

/** "About 1/16 in", where a length is written in another unit than the survey's; else empty. */
export function inOtherWords(text: string, unit: 'mm' | 'in'): string {
  const read = readLength(text, { unit });
  if (!read.ok || !read.stated || read.unit === unit) return '';
  if (unit === 'in' && read.unit === 'ft') return '';
  const fine = read.mm < 50;
  const shown =
    unit === 'in'
      ? showLength(read.mm, { unit, denominator: fine ? 64 : 2 })
      : showLength(read.mm, { unit, decimals: fine ? 1 : 0 });
  return `About ${shown} ${unit}.`;
}

/** Whether that is the house default, which is nobody's own demand. */
export function isHouseTolerance(gap: number, over: number): boolean {
  return gap === HOUSE_TOLERANCE.gap && over === HOUSE_TOLERANCE.over;
}

/** What `canProve` is asked for a survey: its stations where they are planned, else those that were read. */
export function plannedLine(
  { survey, tolerance, limit, repeatability }: SurveyAssessment,
  stations: readonly Typed[],
  division: number | undefined,
): PlannedLine {
  const read = survey.lines.flatMap(({ placements }) =>
    placements.flatMap(({ readings }) => readings.map(({ station }) => station.mm)),
  );
  return {
    stations: stations.length > 0 ? stations.map(({ mm }) => mm) : [...new Set(read)],
    u: uncertaintyWith(division ?? houseDivision(survey.workUnit), repeatability),
    tolerance: tolerance.gap,
    over: tolerance.over,
    limit: limit.mm,
    unit: survey.workUnit,
  };
}

/** The uncertainty of one reading with a gauge of that division, by the same rule as that of readings that were made. */
export function uncertaintyWith(division: number, repeatability: Repeatability): number {
  const nowhere = { mm: 0, text: '' };
  const reading = { station: nowhere, gap: nowhere, look: 1, source: 'planned' };
  const placement = {
    id: 'planned',
    name: '1',
    repeat: 1,
    held: 'resting',
    readings: [],
    voids: [],
    later: [],
  } as const;
  const own =
    repeatability.from === 'house default' ? { ...repeatability, mm: division / 2 } : repeatability;
  return readingUncertainty({ reading, placement, gap: 0, division }, own);
}
