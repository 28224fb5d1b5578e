import { reasonOf } from '../store/reasonOf.ts';

export type WorkState<Work> =
  | { readonly is: 'working' }
  | { readonly is: 'ready'; readonly work: Work }
  | { readonly is: 'failed'; readonly reason: string };

/** What is worked out elsewhere, as far as it is. Of questions that come while one is answered, only the last is. */
export class LastAsked<Question, Work> {
  #found = $state.raw<{ readonly text: string; readonly state: WorkState<Work> }>();

  readonly #workOut: (question: Question) => Promise<Work>;
  readonly #textOf: (question: Question) => string;
  #now: string | undefined;
  #next: Question | undefined;

  /** `textOf`: questions of the same text have the same answer. */
  constructor(
    workOut: (question: Question) => Promise<Work>,
    textOf: (question: Question) => string,
  ) {
    this.#workOut = workOut;
    this.#textOf = textOf;
  }

  of(question: Question): WorkState<Work> {
    return this.#found?.text === this.#textOf(question) ? this.#found.state : { is: 'working' };
  }

  ask(question: Question): void {
    const text = this.#textOf(question);
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

  async #answer(question: Question, text: string): Promise<void> {
    this.#now = text;
    let state: WorkState<Work>;
    try {
      state = { is: 'ready', work: await this.#workOut(question) };
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
