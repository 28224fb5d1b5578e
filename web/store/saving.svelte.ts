/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import type { Entry } from '../../src/book/entry.ts';
import { failureOf, type StoreFailure } from './failure.ts';

export interface SavingOptions {
  /** Resolves when the database has said that it has the entries. */
  readonly write: (entries: readonly Entry[]) => Promise<unknown>;
  /** Opens the database anew after a failure; rejects where that fails. */
  readonly reopen: (failure: StoreFailure) => Promise<void>;
  readonly now: () => Date;
  readonly after: (milliseconds: number, call: () => void) => () => void;
}

interface Item {
  readonly entries: readonly Entry[];
  readonly resolve: () => void;
  readonly reject: (reason: Error) => void;
}

/** Pauses between tries, ms: at once, with a new handle and the reserve freed; then ever longer. */
const PAUSES = [0, 2_000, 5_000, 10_000];
const LONGEST = 30_000;

/** Takes entries to the database and tells truthfully how that goes. Entries that it did not take wait here, in
 *  memory, and are tried again on a new handle by themselves and by hand. */
export class Saving {
  /** Entries that the database has not acknowledged. */
  pending = $state(0);
  lastSavedAt = $state.raw<Date | undefined>();
  /** Stands as long as the database does not take what it is given. */
  failure = $state.raw<StoreFailure | undefined>();

  readonly #options: SavingOptions;
  readonly #items = new Set<Item>();
  #tries = 0;
  #callOff: (() => void) | undefined;
  #trying: Promise<boolean> | undefined;
  #stopped = false;

  constructor(options: SavingOptions) {
    this.#options = options;
  }

  /** Resolves when the database has said that it has the entries, however many tries that takes; rejects only when
   *  the store is closed before. */
  save(entries: readonly Entry[]): Promise<void> {
    if (this.#stopped) return Promise.reject(new Error('this hull is closed'));
    return new Promise((resolve, reject) => {
      const item: Item = { entries, resolve, reject };
      this.#items.add(item);
      this.pending += entries.length;
      if (this.failure === undefined) {
        this.#send(item).catch((error: unknown) => this.interrupted(error));
      }
    });
  }

  /** What waits for the database. */
  unsaved(): readonly Entry[] {
    return [...this.#items].flatMap((item) => item.entries);
  }

  /** The database has stopped answering. */
  interrupted(error: unknown): void {
    if (this.#stopped) return;
    this.failure = failureOf(error);
    if (this.#callOff !== undefined || this.#trying !== undefined) return;
    const pause = PAUSES[this.#tries] ?? LONGEST;
    this.#tries += 1;
    this.#callOff = this.#options.after(pause, () => {
      this.#callOff = undefined;
      void this.retry();
    });
  }

  /** Opens the database anew and writes what waits; whether that went well. */
  retry(): Promise<boolean> {
    this.#trying ??= this.#attempt().then(
      () => {
        this.#trying = undefined;
        return !this.#stopped;
      },
      (error: unknown) => {
        this.#trying = undefined;
        this.interrupted(error);
        return false;
      },
    );
    return this.#trying;
  }

  /** Gives up what waits. */
  stop(reason: string): void {
    this.#stopped = true;
    this.#callOff?.();
    this.#callOff = undefined;
    for (const item of this.#items) item.reject(new Error(reason));
    this.#items.clear();
    this.pending = 0;
  }

  async #attempt(): Promise<void> {
    if (this.failure === undefined || this.#stopped) return;
    this.#callOff?.();
    this.#callOff = undefined;
    await this.#options.reopen(this.failure);
    // Also what comes in meanwhile, since nothing is sent by itself while a failure stands.
    for (const item of this.#items) await this.#send(item);
    this.#tries = 0;
    this.failure = undefined;
  }

  async #send(item: Item): Promise<void> {
    await this.#options.write(item.entries);
    if (!this.#items.delete(item)) return;
    this.pending -= item.entries.length;
    this.lastSavedAt = this.#options.now();
    item.resolve();
  }
}
