import { ALL_BY_NAME, type YardChoices } from '../views/yardShown.ts';

/** Rows shown at first, and more at each asking: few enough to paint at once, and all of them in the page for whoever
 *  searches it, goes by keyboard or has it read aloud. */
export const STEP = 50;

/** What is asked of the yard's list, kept while the page lives: whoever comes back from a hull finds the list as it was
 *  left. */
class YardList {
  choices = $state.raw<YardChoices>(ALL_BY_NAME);
  shown = $state(STEP);

  /** Another question is answered from its beginning. */
  ask(choices: Partial<YardChoices>): void {
    this.choices = { ...this.choices, ...choices };
    this.shown = STEP;
  }

  more(): void {
    this.shown += STEP;
  }
}

export const yardList = new YardList();
