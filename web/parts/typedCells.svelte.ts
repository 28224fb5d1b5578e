import { SvelteMap } from 'svelte/reactivity';
import type { HalfTyped } from './halfTyped.ts';

/** What was typed in the cells of a table and is no entry yet, and why it was refused where it was. A cell is named so
 *  that no other laying, line or station has the same. */
export class TypedCells {
  readonly #texts = new SvelteMap<string, string>();
  readonly #refusals = new SvelteMap<string, string>();

  text(cell: string): string {
    return this.#texts.get(cell) ?? '';
  }

  /** Why what stands in a cell was refused; '' where it was not. */
  refusal(cell: string): string {
    return this.#refusals.get(cell) ?? '';
  }

  /** A refusal is of what stood there: it goes with the next key. */
  type(cell: string, text: string): void {
    this.#refusals.delete(cell);
    if (text === '') this.#texts.delete(cell);
    else this.#texts.set(cell, text);
  }

  refuse(cell: string, words: string): void {
    this.#refusals.set(cell, words);
  }

  get halfTyped(): HalfTyped {
    return [...this.#texts];
  }

  /** Puts back what stood half typed when the page was ended; what is typed now goes before it. */
  putBack(typed: HalfTyped): void {
    for (const [cell, text] of typed) if (!this.#texts.has(cell)) this.#texts.set(cell, text);
  }
}
