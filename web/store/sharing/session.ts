import type { Database, Seq } from '../database.ts';
import type { Surroundings } from '../surroundings.ts';
import type { Files } from './exchange.ts';
import type { HullExchange } from './hullExchange.ts';
import type { Incoming } from './incoming.ts';
import { Lane } from './lane.ts';
import type { Place } from './place.ts';
import type { Remote, RemoteChange } from './remote.ts';
import type { Standings } from './standings.ts';

type Task = 'push' | 'pull';

export interface SessionOptions {
  readonly remote: Remote;
  readonly place: Place;
  readonly standings: Standings;
  readonly incoming: Incoming;
  readonly exchange: HullExchange;
  readonly around: Pick<Surroundings, 'now' | 'after'>;
  /** The hulls on this device that are shared. */
  readonly hulls: () => readonly string[];
  readonly within: <T>(hull: string, use: (local: Database) => Promise<T>) => Promise<T>;
  /** Says that entries of a hull have come. */
  readonly came: (hull: string) => void;
  /** Says that something is being exchanged. */
  readonly busy: () => void;
  /** Says that what waits was counted. */
  readonly counted: () => void;
  /** Says that device and server have the same. */
  readonly level: () => void;
  readonly failed: (error: unknown) => void;
}

const EACH = ['no', 'yes'] as const;

/** How long a place is good enough before another is kept, ms: keeping one asks the server twice. */
const KEEP_EVERY = 15_000;

/** The exchange with a server while it answers: entries without files and with files each in a lane of their own, hull
 *  after hull, and one feed that tells what has come. */
export class Session {
  readonly #options: SessionOptions;
  readonly #lanes: Readonly<Record<Files, Lane<Task>>> = { no: new Lane(), yes: new Lane() };
  /** Up to where the server's changes were looked at; kept as a place once the lanes have done them. */
  #looked: Seq = 0;
  #placedAt = 0;
  /** Whether every hull was looked through for what waits. */
  #swept = false;
  /** Set once the server's database was found to be another one. */
  #another = false;
  #cutPoll: (() => void) | undefined;
  /** Whether the server is to be asked anew rather than waited for. */
  #stirred = false;

  constructor(options: SessionOptions) {
    this.#options = options;
  }

  /** Counts what waits of every hull. */
  async count(signal: AbortSignal): Promise<void> {
    await this.#each(signal, (hull, local) => this.#options.standings.count(hull, local));
    this.#options.counted();
  }

  /** Exchanges until it is called off. Rejects where the server answers no more, and resolves where its database is found
   *  to be another one: then everything is to be compared anew, by running again. */
  async run(outer: AbortSignal): Promise<void> {
    await this.#recognise(outer);
    this.#looked = await this.#options.place.seq();
    if (outer.aborted) return;
    this.#placedAt = 0;
    this.#swept = false;
    this.#another = false;
    const ending = new AbortController();
    const { signal } = ending;
    const stop = (): void => ending.abort();
    outer.addEventListener('abort', stop);
    const sweeping = this.#sweep(signal);
    const work = [
      ...EACH.map((files) =>
        this.#lanes[files].work((hull, tasks) => this.#do(hull, files, tasks, signal), signal),
      ),
      this.#listen(signal),
      new Promise<never>((_, reject) => void sweeping.catch(reject)),
    ];
    try {
      // The first that ends, or fails, ends the others.
      await Promise.race(work);
    } finally {
      outer.removeEventListener('abort', stop);
      ending.abort();
      await Promise.allSettled([...work.slice(0, -1), sweeping]);
      for (const files of EACH) this.#lanes[files].clear();
    }
  }

  /** Entries of a hull were written on this device: they go before what waits already. */
  wrote(hull: string): void {
    const { within, standings, counted } = this.#options;
    this.#lanes.no.want(hull, 'push', true);
    within(hull, (local) => standings.count(hull, local))
      .then(({ yes }) => {
        if (yes > 0) this.#lanes.yes.want(hull, 'push', true);
        counted();
      })
      .catch(() => undefined);
  }

  #wantPush(hull: string, waiting: Readonly<Record<Files, number>>): void {
    for (const files of EACH) if (waiting[files] > 0) this.#lanes[files].want(hull, 'push');
  }

  /** Asks the server anew, where it is only being waited for: the network may be another. */
  stir(): void {
    this.#stirred = true;
    this.#cutPoll?.();
  }

  /** A database on the server that is not the one of last time has nothing of what was given. */
  async #recognise(signal: AbortSignal): Promise<void> {
    const { place, standings } = this.#options;
    if (await place.same()) return;
    await this.#each(signal, (hull, local) => standings.startOver(hull, local));
    if (!signal.aborted) await place.begin();
  }

  async #sweep(signal: AbortSignal): Promise<void> {
    const { standings, counted } = this.#options;
    await this.#each(signal, async (hull, local) => {
      this.#wantPush(hull, await standings.count(hull, local));
      if (standings.denied([hull]).length > 0) this.#lanes.no.want(hull, 'push');
    });
    if (signal.aborted) return;
    this.#swept = true;
    counted();
    await this.#settle(signal);
  }

  async #listen(signal: AbortSignal): Promise<void> {
    const { remote, place } = this.#options;
    while (!signal.aborted && !this.#another) {
      this.#stirred = false;
      const now = await remote.since(this.#looked, signal);
      await this.#look(now.changes);
      this.#looked = now.seq;
      if (now.changes.length > 0) continue;
      await this.#settle(signal);
      if (this.#another) return;
      const next = await this.#next(now.seq, signal);
      await this.#look(next.changes);
      this.#looked = next.seq;
      // Nothing for a while: a database made anew meanwhile would go on saying nothing.
      if (next.changes.length === 0 && !signal.aborted && !(await place.same())) return;
    }
  }

  async #next(
    seq: Seq,
    signal: AbortSignal,
  ): Promise<{ readonly changes: readonly RemoteChange[]; readonly seq: Seq }> {
    if (this.#stirred) return { changes: [], seq };
    const poll = new AbortController();
    const cut = (): void => poll.abort();
    this.#cutPoll = cut;
    signal.addEventListener('abort', cut);
    try {
      return await this.#options.remote.next(seq, poll.signal);
    } catch (error) {
      if (poll.signal.aborted) return { changes: [], seq };
      throw error;
    } finally {
      this.#cutPoll = undefined;
      signal.removeEventListener('abort', cut);
    }
  }

  async #look(changes: readonly RemoteChange[]): Promise<void> {
    for (const hull of await this.#options.incoming.look(changes)) {
      this.#lanes.no.want(hull, 'pull');
      this.#options.busy();
    }
  }

  async #do(
    hull: string,
    files: Files,
    tasks: ReadonlySet<Task>,
    signal: AbortSignal,
  ): Promise<void> {
    if (signal.aborted) return;
    const { exchange, standings, within, came, busy, counted, hulls, around, failed } =
      this.#options;
    busy();
    if (tasks.has('pull')) {
      const seen = exchange.seen(hull);
      if (await exchange.pull(hull, files, signal)) {
        came(hull);
        this.#wantPush(hull, await within(hull, (local) => standings.count(hull, local)));
        counted();
      }
      // What was there before and is here still not has files: it comes behind the readings.
      if (files === 'no' && (await exchange.lacks(hull, seen))) {
        this.#lanes.yes.want(hull, 'pull');
      }
    }
    if (tasks.has('push') && hulls().includes(hull)) {
      await exchange.push(hull, files, signal);
      counted();
    }
    // Once the lane has taken note that this is done.
    around.after(0, () => {
      this.#settle(signal).catch((error: unknown) => failed(error));
    });
  }

  /** Takes note that everything asked for is done, once it is. */
  async #settle(signal: AbortSignal): Promise<void> {
    if (signal.aborted || !this.#still) return;
    const { place, incoming, level, around } = this.#options;
    const now = around.now().getTime();
    if (now - this.#placedAt >= KEEP_EVERY) {
      const seq = this.#looked;
      this.#placedAt = now;
      this.#another = !(await place.keep(seq));
      if (this.#another) {
        this.stir();
        return;
      }
      if (signal.aborted || !this.#still) return;
    }
    incoming.level();
    level();
  }

  /** Whether nothing is left to do, as far as is known. */
  get #still(): boolean {
    return this.#swept && EACH.every((files) => this.#lanes[files].idle);
  }

  async #each(
    signal: AbortSignal,
    act: (hull: string, local: Database) => Promise<unknown>,
  ): Promise<void> {
    for (const hull of this.#options.hulls()) {
      if (signal.aborted) return;
      await this.#options.within(hull, (local) => act(hull, local));
    }
  }
}
