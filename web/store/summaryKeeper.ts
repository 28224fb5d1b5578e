import { hullDatabase } from './database.ts';
import { readEntries } from './entryFiles.ts';
import type { Handles } from './handles.ts';
import { Summaries, type Summary } from './summaries.svelte.ts';
import type { HullFacts } from './hullFacts.ts';
import type { WorkOut } from './summaryClient.ts';
import type { Surroundings } from './surroundings.ts';

export interface SummaryKeeperOptions {
  readonly around: Surroundings;
  readonly handles: Handles;
  readonly engine: string;
  readonly workOut: WorkOut;
  /** Whether this tab has the hull's store open. */
  readonly isOpen: (hull: string) => boolean;
  /** Called when a hull was removed, here or in another tab. */
  readonly gone: (hull: string) => void;
}

/** How long a hull must be left alone before its summary is worked out, ms: reading its entries takes a blink, which
 *  nobody should notice while typing. */
const QUIET = 4_000;

/** Keeps the summaries as new as the hulls: marks one before entries are written, works it out when the hull has been
 *  left alone, in one tab at a time, and finishes removals that were broken off. */
export class SummaryKeeper {
  readonly summaries: Summaries;
  readonly #options: SummaryKeeperOptions;
  /** Hulls that are marked as dirty, as far as this tab knows. */
  readonly #marked = new Set<string>();
  readonly #waiting = new Map<string, () => void>();
  /** The last of the works that were begun: each waits for the one before, so that a yard of a thousand hulls does not
   *  open a thousand databases at once. */
  #working: Promise<unknown> = Promise.resolve();
  #closed = false;

  constructor(options: SummaryKeeperOptions) {
    this.#options = options;
    this.summaries = new Summaries(options.around, options.handles, (summaries, gone) => {
      for (const hull of gone) this.drop(hull);
      for (const summary of summaries) this.#heard(summary);
    });
  }

  /** Says that a hull's entries change, before they do. */
  async mark(hull: string, known: Partial<HullFacts> = {}): Promise<void> {
    if (this.#marked.has(hull) && Object.keys(known).length === 0) return;
    await this.summaries.mark(hull, known);
    this.#marked.add(hull);
  }

  /** Works a hull's summary out once the hull has been left alone. */
  soon(hull: string): void {
    this.#later(hull, () => this.work(hull));
  }

  /** Works a summary out, where it is not as new as the entries. */
  async work(hull: string): Promise<void> {
    const { around, engine, handles, workOut } = this.#options;
    await around.alone(`summary of ${hull}`, async () => {
      const found = await this.summaries.get(hull);
      if (found === undefined || found.summary.removing === true) return;
      if (!found.summary.dirty && found.summary.engine === engine) return;
      await handles.within(hullDatabase(hull), async (database) => {
        const { update_seq: seq } = await database.info();
        const known = found.summary.engine === engine ? found.summary : undefined;
        const facts = await workOut(await readEntries(database), known);
        const { update_seq: after } = await database.info();
        const summary = { hull, ...facts, dirty: after !== seq, seq, engine };
        await this.summaries.settle(summary, found.rev);
      });
    });
  }

  /** Destroys a hull's database, then its summary. */
  async destroy(hull: string): Promise<void> {
    await this.#options.handles.within(hullDatabase(hull), (database) => database.destroy());
    await this.summaries.forget(hull);
  }

  /** Gives a hull up. */
  drop(hull: string): void {
    this.#waiting.get(hull)?.();
    this.#waiting.delete(hull);
    this.#marked.delete(hull);
    this.#options.gone(hull);
  }

  close(): void {
    this.#closed = true;
    for (const callOff of this.#waiting.values()) callOff();
    this.#waiting.clear();
    this.summaries.close();
  }

  #heard(summary: Summary): void {
    const { hull } = summary;
    if (summary.removing === true) {
      this.drop(hull);
      this.#later(hull, () => this.#finishRemoval(hull));
    } else if (summary.dirty || summary.engine !== this.#options.engine) {
      this.soon(hull);
    } else {
      this.#marked.delete(hull);
      if (this.#options.isOpen(hull)) this.#markIfBehind(summary).catch(() => undefined);
    }
  }

  /** Entries may have come between the last look at them and the moment that this was written. */
  async #markIfBehind({ hull, seq }: Summary): Promise<void> {
    const { update_seq } = await this.#options.handles.within(hullDatabase(hull), (database) =>
      database.info(),
    );
    if (update_seq !== seq) await this.mark(hull);
  }

  async #finishRemoval(hull: string): Promise<void> {
    await this.#options.around.alone(`removal of ${hull}`, async () => {
      const found = await this.summaries.get(hull);
      if (found?.summary.removing === true) await this.destroy(hull);
    });
  }

  #later(hull: string, work: () => Promise<void>): void {
    if (this.#closed) return;
    this.#waiting.get(hull)?.();
    const callOff = this.#options.around.after(QUIET, () => {
      this.#waiting.delete(hull);
      // What fails now is dirty still, and is worked out at the next start.
      this.#working = this.#working
        .then(() => (this.#closed ? undefined : work()))
        .catch(() => undefined);
    });
    this.#waiting.set(hull, callOff);
  }
}
