import type { Database, Seq } from '../database.ts';
import { waitingSince, type Denied, type Files, type Odd } from './exchange.ts';
import type { Progress, ProgressKeeper } from './progress.ts';

/** How each hull stands with the server: how far it has come, and how many of its entries wait here. What is kept is
 *  kept one change after another, since two lanes share a hull's. */
export class Standings {
  readonly #keeper: ProgressKeeper;
  readonly #progress = new Map<string, Progress>();
  readonly #waiting = new Map<string, number>();
  #keeping: Promise<unknown> = Promise.resolve();
  #counting: Promise<unknown> = Promise.resolve();

  constructor(keeper: ProgressKeeper) {
    this.#keeper = keeper;
  }

  /** How far a hull has come; `local`: its database. */
  async of(hull: string, local: Database): Promise<Progress> {
    const database = await idOf(local);
    const known = this.#progress.get(hull) ?? (await this.#keeper.of(hull));
    const current =
      known?.database === database
        ? known
        : { database, given: { no: 0, yes: 0 }, denied: [], odd: [] };
    this.#progress.set(hull, current);
    return current;
  }

  change(hull: string, local: Database, to: (progress: Progress) => Progress): Promise<void> {
    return this.#inTurn(async () => {
      const next = to(await this.of(hull, local));
      this.#progress.set(hull, next);
      await this.#keeper.keep(hull, next);
    });
  }

  /** Counts what waits, without and with files. One count after another, or else one that was begun before a push could
   *  end after it. */
  count(hull: string, local: Database): Promise<Readonly<Record<Files, number>>> {
    const counted = this.#counting.then(async () => {
      const { update_seq } = await local.info();
      const { given, denied } = await this.of(hull, local);
      const refused = new Set(denied.map(({ id }) => id));
      const waiting = await waitingSince(local, given);
      const open = waiting.filter(({ id }) => !refused.has(id));
      this.#waiting.set(hull, open.length);
      if (!waiting.some(({ files }) => files === 'yes')) this.#noFilesUpTo(hull, update_seq);
      const yes = open.filter(({ files }) => files === 'yes').length;
      return { no: open.length - yes, yes };
    });
    this.#counting = counted.catch(() => undefined);
    return counted;
  }

  /** How many entries of some hulls wait here, as counted last; without hulls of which none waits. */
  waiting(hulls: readonly string[]): Readonly<Record<string, number>> {
    return Object.fromEntries(
      hulls.flatMap((hull) => {
        const count = this.#waiting.get(hull);
        return count === undefined || count === 0 ? [] : [[hull, count]];
      }),
    );
  }

  /** What the server refused of some hulls. */
  denied(hulls: readonly string[]): readonly Denied[] {
    return hulls.flatMap((hull) => this.#progress.get(hull)?.denied ?? []);
  }

  /** What came of some hulls and cannot be read. */
  odd(hulls: readonly string[]): readonly Odd[] {
    return hulls.flatMap((hull) => this.#progress.get(hull)?.odd ?? []);
  }

  /** Takes nothing of a hull as given. */
  startOver(hull: string, local: Database): Promise<void> {
    return this.change(hull, local, (progress) => ({ ...progress, given: { no: 0, yes: 0 } }));
  }

  /** When all that was to be kept is kept. */
  async kept(): Promise<void> {
    await this.#keeping;
  }

  /** Up to there no entry with files waits: the next count need not look at all that again. */
  #noFilesUpTo(hull: string, seq: Seq): void {
    const known = this.#progress.get(hull);
    if (known === undefined || Number(known.given.yes) >= Number(seq)) return;
    this.#progress.set(hull, { ...known, given: { ...known.given, yes: seq } });
  }

  #inTurn(work: () => Promise<void>): Promise<void> {
    const done = this.#keeping.then(work);
    this.#keeping = done.catch(() => undefined);
    return done;
  }
}

/** What a database on this device was called when it was made. */
async function idOf(local: Database): Promise<string> {
  return (local as Database & { id(): Promise<string> }).id();
}
