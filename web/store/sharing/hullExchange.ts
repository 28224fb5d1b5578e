import type { Database, Seq } from '../database.ts';
import {
  missingHere,
  pull,
  pullThese,
  push,
  pushThese,
  waitingSince,
  type Denied,
  type Files,
  type Pulled,
} from './exchange.ts';
import type { Remote, RemoteChange } from './remote.ts';
import type { Standings } from './standings.ts';
import { takeSeen } from './takeSeen.ts';

export interface HullExchangeOptions {
  readonly remote: Remote;
  readonly standings: Standings;
  /** Uses a hull's database. */
  readonly within: <T>(hull: string, use: (local: Database) => Promise<T>) => Promise<T>;
  /** Says that entries of a hull are about to come. */
  readonly mark: (hull: string) => Promise<void>;
  /** What of a hull was seen on the server and not here. */
  readonly missing: (hull: string) => readonly RemoteChange[];
}

/** So many that are seen and missing are taken by themselves; of more, the server's changes are gone through, which asks
 *  for the next part while one is written. */
const SEEN_AT_MOST = 300;
const TAKEN_AT_MOST = 100;

/** Takes and gives one hull's entries, and keeps how far that has come. A document that cannot be had or given stops no
 *  other: where a hull fails while the server answers, its documents go in parts. */
export class HullExchange {
  readonly #options: HullExchangeOptions;
  /** Entries on the server that were seen to have files. */
  readonly #withFiles = new Set<string>();

  constructor(options: HullExchangeOptions) {
    this.#options = options;
  }

  /** Takes what this device has not; whether anything came. */
  async pull(hull: string, files: Files, signal: AbortSignal): Promise<boolean> {
    const { mark, within, standings } = this.#options;
    await mark(hull);
    return within(hull, async (local) => {
      const { update_seq: before } = await local.info();
      const { written, odd } =
        (await this.#taken(hull, files, local, signal)) ??
        (await this.#pulled(hull, files, local, signal));
      const { update_seq: after } = await local.info();
      if (after === before && odd.length === 0) return false;
      await standings.change(hull, local, (progress) => {
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
      return true;
    });
  }

  /** Gives what the server has not, and offers once more what it refused: rights and rules may have changed. */
  async push(hull: string, files: Files, signal: AbortSignal): Promise<void> {
    const { remote, within, standings } = this.#options;
    await within(hull, async (local) => {
      const { update_seq } = await local.info();
      const { denied: known } = await standings.of(hull, local);
      const denied = await this.#pushed(hull, files, local, signal);
      const again = known.map(({ id }) => id);
      const still = files === 'no' ? await pushThese(local, remote, files, again, signal) : known;
      await standings.change(hull, local, (progress) => {
        const all = new Map([...still, ...denied].map((one) => [one.id, one]));
        if (files === 'yes') for (const one of progress.denied) all.set(one.id, one);
        return {
          ...progress,
          given: { ...progress.given, [files]: update_seq },
          denied: [...all.values()],
        };
      });
      await standings.count(hull, local);
    });
  }

  /** What of a hull was seen on the server and not here. */
  seen(hull: string): readonly RemoteChange[] {
    return this.#options.missing(hull);
  }

  /** Whether anything that was seen on the server is still not here. */
  async lacks(hull: string, seen: readonly RemoteChange[]): Promise<boolean> {
    return this.#options.within(hull, async (local) => (await missingHere(local, seen)).length > 0);
  }

  /** Takes just what the feed has told, where that is little; absent where everything is to be compared. */
  async #taken(
    hull: string,
    files: Files,
    local: Database,
    signal: AbortSignal,
  ): Promise<Pulled | undefined> {
    const { remote, missing, standings } = this.#options;
    const changes = missing(hull);
    if (files === 'yes' || changes.length === 0 || changes.length > SEEN_AT_MOST) return undefined;
    // What could not be had is asked for again with everything.
    if ((await standings.of(hull, local)).odd.length > 0) return undefined;
    try {
      const seen = await this.#bareOf(changes, local);
      if (seen.length > TAKEN_AT_MOST) return undefined;
      const taken = await takeSeen(local, remote, seen, signal);
      for (const id of taken.withFiles) this.#withFiles.add(id);
      const left = await this.#bareOf(seen, local);
      return left.length === 0 ? taken : undefined;
    } catch (error) {
      if (signal.aborted) throw error;
      return undefined;
    }
  }

  /** Of some changes, those that are not here and of which no file is known. */
  async #bareOf(
    changes: readonly RemoteChange[],
    local: Database,
  ): Promise<readonly RemoteChange[]> {
    const ids = new Set(await missingHere(local, changes));
    return changes.filter(({ id }) => ids.has(id) && !this.#withFiles.has(id));
  }

  async #pulled(hull: string, files: Files, local: Database, signal: AbortSignal): Promise<Pulled> {
    const { remote, missing } = this.#options;
    try {
      return await pull(local, remote, hull, files, signal);
    } catch (error) {
      if (signal.aborted) throw error;
      await remote.check();
      const changes = missing(hull);
      if (changes.length === 0) throw error;
      const wanted = await missingHere(local, changes);
      return pullThese(local, remote, files, wanted, signal);
    }
  }

  async #pushed(
    hull: string,
    files: Files,
    local: Database,
    signal: AbortSignal,
  ): Promise<readonly Denied[]> {
    const { remote, standings } = this.#options;
    const { given } = await standings.of(hull, local);
    try {
      return await push(local, remote, files, given[files] === 0, signal);
    } catch (error) {
      if (signal.aborted) throw error;
      await remote.check();
      const waiting = await waitingSince(local, given);
      const ids = waiting.filter((one) => one.files === files).map(({ id }) => id);
      return pushThese(local, remote, files, ids, signal);
    }
  }
}
