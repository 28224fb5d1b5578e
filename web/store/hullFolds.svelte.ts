/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { standing, type Standing } from '../../src/book/standing.ts';
import { hullOf, type HullState } from '../../src/survey/fold/hullOf.ts';
import type { Disagreement } from '../../src/survey/fold/report.ts';
import { surveyOf, type SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { surveysOf, type SurveyLine, type SurveyList } from '../../src/survey/fold/surveysOf.ts';
import type { Survey } from '../../src/survey/survey.ts';

/** Something that was stated and cannot be counted, and why. It is kept and shown. */
export interface NotCounted {
  /** Id of the entry, or `<id>#<row>` of an import's row. */
  readonly id: string;
  readonly reason: string;
  /** Every content that came, where that is the question. */
  readonly contents?: readonly Entry[];
}

/** What one hull's entries say of the hull and its surveys: which of them stand, folded when something else does. */
export abstract class HullFolds {
  /** Every content of every entry, saved or not. */
  entries = $state.raw<readonly Entry[]>([]);
  /** Documents in the database that are no entries. */
  unreadable = $state.raw<readonly NotCounted[]>([]);

  readonly standing: Standing = $derived(standing(bookOf(this.entries)));
  readonly hull: HullState = $derived(hullOf(this.standing.standing));
  readonly #list: SurveyList = $derived(surveysOf(this.standing.standing));
  /** Each survey folded when it is first asked for, and again when something else stands. */
  readonly #folded: (key: string) => SurveyState = $derived.by(() => {
    const { standing: standers, struckRows } = this.standing;
    const known = new Map<string, SurveyState>();
    return (key) => {
      const folded = known.get(key) ?? surveyOf(standers, struckRows, key);
      known.set(key, folded);
      return folded;
    };
  });

  /** The surveys of this hull, by date. */
  get surveys(): readonly SurveyLine[] {
    return this.#list.surveys;
  }

  /** Entries about the same thing, none of which strikes the other; all stand. */
  get disagreements(): readonly Disagreement[] {
    const ofSurveys = this.surveys.flatMap(({ key }) => this.#folded(key).disagreements);
    return [...this.hull.disagreements, ...this.#list.disagreements, ...ofSurveys];
  }

  /** What is kept and not counted. */
  get setAside(): readonly NotCounted[] {
    const folds = [
      this.hull.setAside,
      ...this.surveys.map(({ key }) => this.#folded(key).setAside),
    ];
    return [
      ...this.unreadable,
      ...this.standing.setAside.map(({ id, reason, contents }) => ({ id, reason, contents })),
      ...folds.flat(),
    ];
  }

  /** A survey's measurements; absent where nothing of that key stands. */
  survey(key: string): Survey | undefined {
    return this.surveyState(key)?.survey;
  }

  /** A survey with its plan, remarks and what is set aside; absent where nothing of that key stands. */
  surveyState(key: string): SurveyState | undefined {
    return this.surveys.some((line) => line.key === key) ? this.#folded(key) : undefined;
  }
}
