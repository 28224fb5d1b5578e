import type { Survey } from '../../src/survey/survey.ts';
import { reasonOf } from '../store/reasonOf.ts';
import { surveyText } from '../views/assessOnce.ts';
import type { SheetAsked, SheetWork } from '../views/sheetWork.ts';

/** A survey of which a sheet is asked; `before`: the survey that the checked sheet was made from. */
export interface SheetQuestion {
  readonly survey: Survey;
  readonly asked: SheetAsked;
  readonly before?: Survey;
}

export type SheetState =
  | { readonly is: 'working' }
  | { readonly is: 'ready'; readonly work: SheetWork }
  | { readonly is: 'failed'; readonly reason: string };

/** Whoever works sheets out. */
export interface SheetReckoner {
  /** How far the answer to a question is. */
  of(question: SheetQuestion): SheetState;
  ask(question: SheetQuestion): void;
}

type WorkOut = (survey: Survey, asked: SheetAsked, before?: Survey) => Promise<SheetWork>;

/** The work of a sheet as far as it is worked out. Of questions that come while one is answered, only the last is. */
export class SheetDesk implements SheetReckoner {
  #found = $state.raw<{ readonly text: string; readonly state: SheetState }>();

  readonly #workOut: WorkOut;
  #now: string | undefined;
  #next: SheetQuestion | undefined;

  constructor(workOut: WorkOut) {
    this.#workOut = workOut;
  }

  of(question: SheetQuestion): SheetState {
    return this.#found?.text === textOf(question) ? this.#found.state : { is: 'working' };
  }

  ask(question: SheetQuestion): void {
    const text = textOf(question);
    if (text === this.#now) {
      this.#next = undefined;
      return;
    }
    if (this.#now !== undefined) {
      this.#next = question;
      return;
    }
    if (text !== this.#found?.text) void this.#answer(question, text);
  }

  async #answer({ survey, asked, before }: SheetQuestion, text: string): Promise<void> {
    this.#now = text;
    let state: SheetState;
    try {
      state = { is: 'ready', work: await this.#workOut(survey, asked, before) };
    } catch (error) {
      state = { is: 'failed', reason: reasonOf(error) };
    }
    this.#now = undefined;
    this.#found = { text, state };
    const next = this.#next;
    this.#next = undefined;
    if (next !== undefined) this.ask(next);
  }
}

function textOf({ survey, asked, before }: SheetQuestion): string {
  return [surveyText(survey), JSON.stringify(asked), before ? surveyText(before) : ''].join('\n');
}
