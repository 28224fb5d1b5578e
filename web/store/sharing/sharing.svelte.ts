/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import { parseId } from '../../../src/book/id.ts';
import { hullDatabase, type Database, type Seq } from '../database.ts';
import { isDemo } from '../demoHull.ts';
import type { Handle, Handles } from '../handles.ts';
import type { Surroundings } from '../surroundings.ts';
import {
  missingHere,
  pull,
  pullSingly,
  push,
  pushAgain,
  pushSingly,
  waitingSince,
  type Denied,
  type Files,
  type Odd,
} from './exchange.ts';
import { Lane } from './lane.ts';
import { PROGRESS_DATABASE, ProgressKeeper, type Progress } from './progress.ts';
import type { Remote, RemoteChange } from './remote.ts';
import { serverFailureOf } from './serverFailure.ts';
import { carries, type SharingSettings } from './settings.ts';
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
  readonly around: Pick<Surroundings, 'now' | 'after' | 'alone' | 'onVisible'>;
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

type Task = 'push' | 'pull';

/** Pauses between tries, ms. */
const PAUSES = [1_000, 2_000, 5_000, 10_000, 30_000];
const LONGEST = 60_000;
const EACH = ['no', 'yes'] as const;

/** Shares this device's record with a server: what is entered here goes there, what is entered elsewhere comes here. One
 *  tab does it, the others are told how it stands. Readings go and come by themselves and do not wait for photos. Nothing
 *  of what it does can take anything from the record: entries are only ever added. */
export class Sharing {
  status = $state.raw<SharingStatus>(NOT_STARTED);

  readonly #options: SharingOptions;
  readonly #lanes: Readonly<Record<Files, Lane<Task>>> = { no: new Lane(), yes: new Lane() };
  readonly #waiting = new Map<string, number>();
  readonly #progress = new Map<string, Progress>();
  readonly #progressHandle: Handle;
  readonly #keeper: ProgressKeeper;
  readonly #stopping = new AbortController();
  readonly #stopSeeing: () => void;
  readonly #foreign = new Set<string>();
  /** Ids of a hull that were seen on the server and not here. */
  readonly #missing = new Map<string, Set<string>>();
  #leads = false;
  #hurry: (() => void) | undefined;
  /** The keeping of progress: two lanes share a hull's. */
  #keeping: Promise<void> = Promise.resolve();
  #counting: Promise<void> = Promise.resolve();
  /** Up to where the server's changes were looked at; they are kept as heard once the lanes have done them. */
  #looked: Seq = 0;

  constructor(options: SharingOptions) {
    this.#options = options;
    const { carry, user } = options.settings;
    this.#progressHandle = options.handles.take(PROGRESS_DATABASE);
    const partner = JSON.stringify([options.remote.address, user, carry]);
    this.#keeper = new ProgressKeeper(() => this.#progressHandle.database(), partner);
    this.#stopSeeing = options.around.onVisible(() => this.again());
    options.around
      .alone('sharing', () => this.#lead())
      .catch((error: unknown) => this.#failed(error));
    options.tell({ told: 'ask' });
  }

  /** Ends the exchange; what waits here goes on waiting. */
  stop(): void {
    this.#stopping.abort();
    this.#stopSeeing();
    this.#hurry?.();
    this.status = { ...this.status, at: 'stopped' };
    this.#options.ended?.();
  }

  /** Entries were written on this device, in this tab. */
  written(hull: string): void {
    if (this.#leads) this.#wrote(hull);
    else this.#options.tell({ told: 'written', hull });
  }

  /** Another tab has told something. */
  heard(told: Told): void {
    if (told.told === 'status') {
      if (!this.#leads && !this.#stopping.signal.aborted) this.status = told.status;
    } else if (this.#leads) {
      if (told.told === 'written') this.#wrote(told.hull);
      else if (told.told === 'again') this.again();
      else this.#options.tell({ told: 'status', status: this.status });
    }
  }

  /** Tries again at once, where it waits to. */
  again(): void {
    if (this.#leads) this.#hurry?.();
    else this.#options.tell({ told: 'again' });
  }

  async #lead(): Promise<void> {
    if (this.#stopped) {
      this.#progressHandle.release();
      return;
    }
    this.#leads = true;
    let tries = 0;
    try {
      this.#show({ at: 'starting' });
      await this.#countAll();
      while (!this.#stopped) {
        try {
          await this.#session(() => (tries = 0));
        } catch (error) {
          this.#failed(error);
        }
        if (this.#stopped) break;
        await this.#pause(PAUSES[tries] ?? LONGEST);
        tries += 1;
      }
    } finally {
      this.#leads = false;
      await this.#keeping.catch(() => undefined);
      this.#progressHandle.release();
    }
  }

  get #stopped(): boolean {
    return this.#stopping.signal.aborted;
  }

  /** From a server that answers until it does so no more. */
  async #session(connected: () => void): Promise<void> {
    const { remote } = this.#options;
    await remote.check();
    connected();
    for (const hull of this.#shared()) {
      this.#lanes.no.want(hull, 'push');
      this.#lanes.yes.want(hull, 'push');
    }
    this.#looked = await this.#keeper.heard();
    if (this.#stopped) return;
    const ending = new AbortController();
    const { signal } = ending;
    const stop = (): void => ending.abort();
    this.#stopping.signal.addEventListener('abort', stop);
    const work = [
      ...EACH.map((files) =>
        this.#lanes[files].work((hull, tasks) => this.#do(hull, files, tasks, signal), signal),
      ),
      this.#listen(signal),
    ];
    try {
      // The first that fails ends the others.
      await Promise.race(work);
    } finally {
      this.#stopping.signal.removeEventListener('abort', stop);
      ending.abort();
      await Promise.allSettled(work);
      for (const files of EACH) this.#lanes[files].clear();
    }
  }

  async #listen(signal: AbortSignal): Promise<void> {
    const { remote } = this.#options;
    while (!signal.aborted) {
      const now = await remote.since(this.#looked, signal);
      await this.#look(now.changes);
      this.#looked = now.seq;
      if (now.changes.length > 0) continue;
      await this.#settle();
      const next = await remote.next(now.seq, signal);
      await this.#look(next.changes);
      this.#looked = next.seq;
    }
  }

  /** Asks for what has come on the server and is not here. */
  async #look(changes: readonly RemoteChange[]): Promise<void> {
    const byHull = new Map<string, RemoteChange[]>();
    const { carry } = this.#options.settings;
    const year = this.#options.around.now().getUTCFullYear();
    for (const change of changes) {
      const parsed = parseId(change.id);
      if (!parsed.ok) {
        if (!change.id.startsWith('_')) this.#foreign.add(change.id);
        continue;
      }
      const { hull, time } = parsed;
      if (isDemo(hull) || !(this.#has(hull) || carries(carry, hull, time, year))) continue;
      const list = byHull.get(hull);
      if (list === undefined) byHull.set(hull, [change]);
      else list.push(change);
    }
    for (const [hull, list] of byHull) {
      const missing = this.#has(hull)
        ? await this.#within(hull, (local) => missingHere(local, list))
        : list.map(({ id }) => id);
      if (missing.length === 0) continue;
      const wanted = this.#missing.get(hull) ?? new Set();
      for (const id of missing) wanted.add(id);
      this.#missing.set(hull, wanted);
      for (const files of EACH) this.#lanes[files].want(hull, 'pull');
      this.#show({ at: 'exchanging' });
    }
  }

  async #do(
    hull: string,
    files: Files,
    tasks: ReadonlySet<Task>,
    signal: AbortSignal,
  ): Promise<void> {
    if (this.#stopped) return;
    this.#show({ at: 'exchanging' });
    if (tasks.has('pull')) await this.#pull(hull, files, signal);
    if (tasks.has('push') && this.#has(hull)) await this.#push(hull, files, signal);
    // Once the lane has taken note that this is done.
    this.#options.around.after(0, () => {
      this.#settle().catch((error: unknown) => this.#failed(error));
    });
  }

  async #pull(hull: string, files: Files, signal: AbortSignal): Promise<void> {
    const { mark, came } = this.#options;
    await mark(hull);
    await this.#within(hull, async (local) => {
      const { update_seq: before } = await local.info();
      const { written, odd } = await this.#pulled(hull, files, local, signal);
      if (written === 0 && odd.length === 0) return;
      const { update_seq: after } = await local.info();
      await this.#keep(hull, (progress) => {
        // What has just come need not go back, where nothing was entered meanwhile.
        const alone = Number(after) - Number(before) === written;
        const on = (seq: Seq): Seq => (alone && seq === before ? after : seq);
        const known = new Set(odd.map(({ id }) => id));
        return {
          ...progress,
          given: { no: on(progress.given.no), yes: on(progress.given.yes) },
          odd: [...progress.odd.filter(({ id }) => !known.has(id)), ...odd],
        };
      });
      await this.#count(hull, local);
    });
    came(hull);
    const waiting = this.#waiting.get(hull);
    if (waiting !== undefined && waiting > 0) this.#wrote(hull);
  }

  /** A server that answers and fails with a hull fails with a document of it: the rest is had one by one. */
  async #pulled(
    hull: string,
    files: Files,
    local: Database,
    signal: AbortSignal,
  ): Promise<{ readonly written: number; readonly odd: readonly Odd[] }> {
    const { remote } = this.#options;
    try {
      return await pull(local, remote, hull, files, signal);
    } catch (error) {
      if (signal.aborted) throw error;
      await remote.check();
      const ids = [...(this.#missing.get(hull) ?? [])];
      if (ids.length === 0) throw error;
      const revs: readonly string[] = [];
      const missing = await missingHere(
        local,
        ids.map((id) => ({ id, revs })),
      );
      return { written: 0, odd: await pullSingly(local, remote, missing, signal) };
    }
  }

  async #pushed(
    hull: string,
    files: Files,
    local: Database,
    signal: AbortSignal,
  ): Promise<readonly Denied[]> {
    const { remote } = this.#options;
    try {
      return await push(local, remote, files, signal);
    } catch (error) {
      if (signal.aborted) throw error;
      await remote.check();
      const { given } = await this.#progressOf(hull);
      const ids = await waitingSince(local, given);
      return pushSingly(local, remote, ids, signal);
    }
  }

  async #push(hull: string, files: Files, signal: AbortSignal): Promise<void> {
    const { remote } = this.#options;
    await this.#within(hull, async (local) => {
      const { update_seq } = await local.info();
      const known = (await this.#progressOf(hull)).denied;
      const denied = await this.#pushed(hull, files, local, signal);
      const again = known.map(({ id }) => id);
      // Each start tries once more; rights and rules may have changed.
      const still =
        files === 'no' && again.length > 0 ? await pushAgain(local, remote, again, signal) : known;
      await this.#keep(hull, (progress) => {
        const all = new Map([...still, ...denied].map((one) => [one.id, one]));
        if (files === 'yes') for (const one of progress.denied) all.set(one.id, one);
        return {
          ...progress,
          given: { ...progress.given, [files]: update_seq },
          denied: [...all.values()],
        };
      });
      await this.#count(hull, local);
    });
  }

  #wrote(hull: string): void {
    if (isDemo(hull)) return;
    for (const files of EACH) this.#lanes[files].want(hull, 'push', true);
    this.#within(hull, (local) => this.#count(hull, local))
      .then(() => this.#show({}))
      .catch(() => undefined);
  }

  /** Takes note that everything asked for is done, once it is. */
  async #settle(): Promise<void> {
    if (this.#stopped || !EACH.every((files) => this.#lanes[files].idle)) return;
    const seq = this.#looked;
    const kept = this.#keeping.then(() => this.#keeper.keepHeard(seq));
    this.#keeping = kept.catch(() => undefined);
    await kept;
    if (!EACH.every((files) => this.#lanes[files].idle)) return;
    this.#show({
      at: 'idle',
      failure: undefined,
      lastExchange: this.#options.around.now().toISOString(),
    });
  }

  async #countAll(): Promise<void> {
    for (const hull of this.#shared()) {
      if (this.#stopped) return;
      await this.#within(hull, (local) => this.#count(hull, local));
    }
    this.#show({});
  }

  /** One count after another, or else one that was begun before a push could end after it. */
  #count(hull: string, local: Database): Promise<void> {
    const counted = this.#counting.then(async () => {
      const { given, denied } = await this.#progressOf(hull);
      const refused = new Set(denied.map(({ id }) => id));
      const waiting = await waitingSince(local, given);
      this.#waiting.set(hull, waiting.filter((id) => !refused.has(id)).length);
    });
    this.#counting = counted.catch(() => undefined);
    return counted;
  }

  async #progressOf(hull: string): Promise<Progress> {
    const known = this.#progress.get(hull) ?? (await this.#keeper.of(hull));
    this.#progress.set(hull, known);
    return known;
  }

  #keep(hull: string, change: (progress: Progress) => Progress): Promise<void> {
    const kept = this.#keeping.then(async () => {
      const next = change(await this.#progressOf(hull));
      this.#progress.set(hull, next);
      await this.#keeper.keep(hull, next);
    });
    this.#keeping = kept.catch(() => undefined);
    return kept;
  }

  #shared(): readonly string[] {
    return this.#options.hulls().filter((hull) => !isDemo(hull));
  }

  #has(hull: string): boolean {
    return this.#options.hulls().includes(hull);
  }

  #within<T>(hull: string, use: (local: Database) => Promise<T>): Promise<T> {
    return this.#options.handles.within(hullDatabase(hull), use);
  }

  #failed(error: unknown): void {
    if (this.#stopped) return;
    const failure = serverFailureOf(error);
    this.#show({
      at: 'failed',
      failure: {
        kind: failure.kind,
        words: failure.message,
        detail: failure.detail,
        at: this.#options.around.now().toISOString(),
      },
    });
  }

  #show(change: Partial<Record<keyof SharingStatus, unknown>>): void {
    if (this.#stopped || !this.#leads) return;
    const progress = [...this.#progress.values()];
    this.status = {
      ...this.status,
      ...change,
      waiting: this.#shared()
        .flatMap((hull) => this.#waiting.get(hull) ?? [])
        .reduce((sum, count) => sum + count, 0),
      denied: progress.flatMap(({ denied }) => denied),
      odd: progress.flatMap(({ odd }) => odd),
      foreign: this.#foreign.size,
    } as SharingStatus;
    this.#options.tell({ told: 'status', status: this.status });
  }

  #pause(milliseconds: number): Promise<void> {
    return new Promise((resolve) => {
      const done = (): void => {
        callOff();
        this.#hurry = undefined;
        resolve();
      };
      const callOff = this.#options.around.after(milliseconds, done);
      this.#hurry = done;
    });
  }
}
