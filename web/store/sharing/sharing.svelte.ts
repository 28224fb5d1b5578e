import { hullDatabase, type Database } from '../database.ts';
import { isDemo } from '../demoHull.ts';
import type { Handles } from '../handles.ts';
import type { Surroundings } from '../surroundings.ts';
import { HullExchange } from './hullExchange.ts';
import { Incoming } from './incoming.ts';
import { Patience } from './patience.ts';
import { Place } from './place.ts';
import { PROGRESS_DATABASE, ProgressKeeper } from './progress.ts';
import type { Remote } from './remote.ts';
import type { ServerFailureKind } from './serverFailure.ts';
import { Session } from './session.ts';
import type { SharingSettings } from './settings.ts';
import { Standings } from './standings.ts';
import { NOT_STARTED, type SharingStatus } from './status.ts';

/** What tabs of one browser tell one another. */
export type Told =
  | { readonly told: 'written'; readonly hull: string }
  | { readonly told: 'status'; readonly status: SharingStatus }
  | { readonly told: 'again' }
  | { readonly told: 'ask' };

export interface SharingOptions {
  readonly settings: SharingSettings;
  readonly remote: Remote;
  readonly around: Pick<Surroundings, 'now' | 'after' | 'alone' | 'onVisible' | 'random'>;
  readonly handles: Handles;
  /** The hulls on this device. */
  readonly hulls: () => readonly string[];
  /** Says that entries of a hull are about to come. */
  readonly mark: (hull: string) => Promise<void>;
  /** Says that entries of a hull have come. */
  readonly came: (hull: string) => void;
  /** Tells the other tabs. */
  readonly tell: (told: Told) => void;
  /** Called when it has ended. */
  readonly ended?: () => void;
}

/** Shares this device's record with a server: what is entered here goes there, what is entered elsewhere comes here. One
 *  tab does it, the others are told how it stands. Readings go and come by themselves and do not wait for photos. Nothing
 *  of what it does can take anything from the record: entries are only ever added. */
export class Sharing {
  status = $state.raw<SharingStatus>(NOT_STARTED);

  readonly #options: SharingOptions;
  readonly #standings: Standings;
  readonly #incoming: Incoming;
  readonly #session: Session;
  readonly #patience: Patience;
  readonly #stopping = new AbortController();
  readonly #stopSeeing: () => void;
  readonly #release: () => void;
  #leads = false;
  #leading: Promise<void> = Promise.resolve();

  constructor(options: SharingOptions) {
    this.#options = options;
    const { settings, remote, around, handles, mark, came } = options;
    const progress = handles.take(PROGRESS_DATABASE);
    this.#release = () => progress.release();
    const partner = JSON.stringify([remote.address, settings.user]);
    const choice = JSON.stringify([settings.carry, settings.without ?? []]);
    const keeper = new ProgressKeeper(() => progress.database(), partner);
    const within = <T>(hull: string, use: (local: Database) => Promise<T>): Promise<T> =>
      handles.within(hullDatabase(hull), use);
    const standings = new Standings(keeper);
    const incoming = new Incoming({
      settings,
      now: around.now,
      has: (hull) => options.hulls().includes(hull),
      within,
    });
    this.#standings = standings;
    this.#incoming = incoming;
    this.#patience = new Patience(around);
    this.#session = new Session({
      remote,
      place: new Place({ keeper, remote, choice, random: around.random }),
      standings,
      incoming,
      exchange: new HullExchange({
        remote,
        standings,
        within,
        mark,
        missing: (hull) => incoming.missing(hull),
      }),
      around,
      hulls: () => this.#shared(),
      within,
      came,
      busy: () => this.#show({ at: 'exchanging' }),
      counted: () => this.#show({}),
      level: () => this.#level(),
      failed: (error) => void this.#failed(error),
    });
    this.#stopSeeing = around.onVisible(() => this.again());
    around
      .alone('sharing', () => {
        this.#leading = this.#lead();
        return this.#leading;
      })
      .catch((error: unknown) => void this.#failed(error));
    options.tell({ told: 'ask' });
  }

  /** Ends the exchange; what waits here goes on waiting. */
  stop(): void {
    this.#stopping.abort();
    this.#stopSeeing();
    this.#patience.hurry();
    this.status = { ...this.status, at: 'stopped' };
    this.#options.ended?.();
  }

  /** Resolves when nothing of it uses a database any more, once it was stopped. */
  async over(): Promise<void> {
    await this.#leading.catch(() => undefined);
  }

  /** Entries were written on this device, in this tab. */
  written(hull: string): void {
    if (this.#leads) this.#wrote(hull);
    else this.#options.tell({ told: 'written', hull });
  }

  /** Another tab has told something. */
  heard(told: Told): void {
    if (told.told === 'status') {
      if (!this.#leads && !this.#stopped) this.status = told.status;
    } else if (this.#leads) {
      if (told.told === 'written') this.#wrote(told.hull);
      else if (told.told === 'again') this.again();
      else this.#options.tell({ told: 'status', status: this.status });
    }
  }

  /** Tries again at once, where it waits to. */
  again(): void {
    if (!this.#leads) {
      this.#options.tell({ told: 'again' });
      return;
    }
    this.#patience.hurry();
    this.#session.stir();
  }

  async #lead(): Promise<void> {
    this.#leads = true;
    this.#show({ at: 'starting' });
    const { signal } = this.#stopping;
    let counted = false;
    while (!this.#stopped) {
      this.#patience.begin();
      let failure: ServerFailureKind | undefined;
      try {
        if (!counted) await this.#session.count(signal);
        counted = true;
        await this.#options.remote.check();
        await this.#session.run(signal);
        continue;
      } catch (error) {
        failure = this.#failed(error);
      }
      if (!this.#stopped) await this.#patience.pause(failure);
    }
    this.#leads = false;
    await this.#standings.kept();
    this.#release();
  }

  get #stopped(): boolean {
    return this.#stopping.signal.aborted;
  }

  #wrote(hull: string): void {
    if (!isDemo(hull)) this.#session.wrote(hull);
  }

  #shared(): readonly string[] {
    return this.#options.hulls().filter((hull) => !isDemo(hull));
  }

  #level(): void {
    this.#patience.reset();
    this.#show({
      at: 'idle',
      failure: undefined,
      lastExchange: this.#options.around.now().toISOString(),
    });
  }

  #failed(error: unknown): ServerFailureKind {
    const { kind, message: words, detail } = this.#options.remote.reasonOf(error);
    const at = this.#options.around.now().toISOString();
    this.#show({ at: 'failed', failure: { kind, words, detail, at } });
    return kind;
  }

  #show(change: Partial<Record<keyof SharingStatus, unknown>>): void {
    if (this.#stopped || !this.#leads) return;
    const hulls = this.#shared();
    const waitingOf = this.#standings.waiting(hulls);
    this.status = {
      ...this.status,
      ...change,
      waiting: Object.values(waitingOf).reduce((sum, count) => sum + count, 0),
      waitingOf,
      denied: this.#standings.denied(hulls),
      odd: this.#standings.odd(hulls),
      foreign: this.#incoming.foreign,
    } as SharingStatus;
    this.#options.tell({ told: 'status', status: this.status });
  }
}
