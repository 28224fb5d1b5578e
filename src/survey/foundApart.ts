import type { Profile } from '../fit/posterior.ts';
import type { LineAssessment, SurveyAssessment } from './assessment.ts';
import { lineBudget, type ResultBudget } from './budget.ts';
import { lineStraightness, type LineStraightness } from './lineStraightness.ts';
import { nextActs, type NextAct } from './nextActs.ts';
import type { Placement } from './survey.ts';

/** What was found from a line's readings where these stayed behind, in another thread: all that is asked of them
 *  afterwards. */
export interface FoundApart {
  readonly profile: Profile;
  /** Those whose readings the profile was fitted to. */
  readonly placements: readonly Placement[];
  readonly budget: readonly ResultBudget[];
  /** Absent as from `lineStraightness`. */
  readonly straightness?: LineStraightness;
  readonly acts: readonly NextAct[];
}

/** Works it out, while the readings are there; undefined for a line that was not judged from its readings. */
export function foundOf(line: LineAssessment, all: SurveyAssessment): FoundApart | undefined {
  const { outcome } = line;
  if (!outcome.ok || !outcome.fitted) return undefined;
  const { profile, columns } = outcome.fitted;
  const straightness = lineStraightness(line);
  return {
    profile,
    placements: columns.map(({ placement }) => placement),
    budget: lineBudget(line, all),
    ...(straightness && { straightness }),
    acts: nextActs(line, all),
  };
}

/** The placements that a judged line rests on, wherever its readings are. */
export function placementsJudged({
  outcome,
}: Pick<LineAssessment, 'outcome'>): readonly Placement[] {
  if (!outcome.ok) return [];
  return (
    outcome.fitted?.columns.map(({ placement }) => placement) ?? outcome.apart?.placements ?? []
  );
}
