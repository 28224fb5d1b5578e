import { getContext, setContext } from 'svelte';

const KEY = Symbol('turns of a sheet’s sections');

/** Sections of a long sheet come one after another, a task each, so that the first is read and the page scrolls while the rest
 *  still comes. Where nobody gives turns, as on the command line, all come at once. */
export class Turns {
  #given = 0;
  #reached = $state(1);
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** Those of the sheet that this component is part of. */
  static ofSheet(): Turns | undefined {
    return getContext<Turns | undefined>(KEY);
  }

  /** For the sheet within this component; written as text, it is all there at once. */
  give(): void {
    if (typeof document !== 'undefined') setContext(KEY, this);
  }

  /** The next section's turn, by the order in which they are made: whether it has come. */
  take(): () => boolean {
    const turn = this.#given;
    this.#given += 1;
    this.#goOn();
    return () => turn < this.#reached;
  }

  /** All that are still waiting come now; those made from now on come at once. */
  finish(): void {
    clearTimeout(this.#timer);
    this.#reached = Infinity;
  }

  #goOn(): void {
    if (this.#timer !== undefined || this.#reached >= this.#given) return;
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      this.#reached += 1;
      this.#goOn();
    });
  }
}
