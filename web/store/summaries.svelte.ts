/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import * as v from 'valibot';

import { isKey } from '../../src/book/id.ts';
import { SUMMARIES, type Database, type StoredDocument } from './database.ts';
import { failureOf, type StoreFailure } from './failure.ts';
import { follow, type Arrival, type Feed } from './feed.ts';
import type { Handle, Handles } from './handles.ts';
import { hullFactsFields, type HullFacts } from './hullFacts.ts';
import type { Surroundings } from './surroundings.ts';

/** A hull in the yard's list. */
export interface Summary extends HullFacts {
  readonly hull: string;
  /** True while what stands here may be older than the hull's entries. */
  readonly dirty: boolean;
  /** Where the hull's database stood when this was worked out. */
  readonly seq?: number | string;
  /** Version of the app that worked it out. */
  readonly engine?: string;
  /** True once the person has asked to remove the hull. */
  readonly removing?: boolean;
}

const schema = v.object({
  _id: v.pipe(v.string(), v.check(isKey)),
  ...hullFactsFields,
  dirty: v.boolean(),
  seq: v.exactOptional(v.union([v.number(), v.string()])),
  engine: v.exactOptional(v.string()),
  removing: v.exactOptional(v.boolean()),
});

const NOTHING: Omit<Summary, 'hull'> = {
  invented: false,
  entries: 0,
  surveys: 0,
  verdict: [],
  dirty: true,
};

/** The summaries of all hulls on this device: a database of its own, one document a hull, which can be thrown away and
 *  worked out again. A document that cannot be read counts as one to be worked out again. */
export class Summaries {
  all = $state.raw<ReadonlyMap<string, Summary>>(new Map());
  failure = $state.raw<StoreFailure | undefined>();

  readonly #around: Surroundings;
  readonly #handle: Handle;
  readonly #heard: (summaries: readonly Summary[], gone: readonly string[]) => void;
  #feed: Feed | undefined;

  constructor(
    around: Surroundings,
    handles: Handles,
    heard: (summaries: readonly Summary[], gone: readonly string[]) => void,
  ) {
    this.#around = around;
    this.#handle = handles.take(SUMMARIES);
    this.#heard = heard;
  }

  /** Reads and follows them; rejects where the database cannot be read, with `failure` set. */
  async open(): Promise<void> {
    this.#feed?.stop();
    if (this.failure !== undefined) this.#handle.renew();
    this.#feed = follow(this.#handle.database(), {
      arrived: (arrivals) => this.#arrived(arrivals),
      failed: (error) => (this.failure = failureOf(error)),
      after: this.#around.after,
      onVisible: this.#around.onVisible,
    });
    await this.#feed.ready;
    this.failure = undefined;
  }

  /** Says that a hull's entries change, before they do; with what is known of it already. */
  async mark(hull: string, known: Partial<HullFacts> = {}): Promise<void> {
    // After a failure the old handle answers no more.
    if (this.failure !== undefined) await this.open();
    await this.#change(hull, (summary) =>
      summary?.dirty === true && Object.keys(known).length === 0
        ? undefined
        : { ...NOTHING, ...summary, hull, ...known, dirty: true },
    );
  }

  /** Says that the person wants a hull gone. */
  async markRemoving(hull: string): Promise<void> {
    await this.#change(hull, (summary) => ({ ...NOTHING, ...summary, hull, removing: true }));
  }

  /** Keeps what was worked out, unless the summary was changed since its revision was read. */
  async settle(summary: Summary, rev: string): Promise<boolean> {
    try {
      await (await this.#database).put({ ...documentOf(summary), _rev: rev });
      return true;
    } catch (error) {
      if (statusOf(error) === 409) return false;
      throw error;
    }
  }

  async get(
    hull: string,
  ): Promise<{ readonly summary: Summary; readonly rev: string } | undefined> {
    try {
      const document = await (await this.#database).get(hull);
      return { summary: summaryIn(document), rev: document._rev ?? '' };
    } catch (error) {
      if (statusOf(error) === 404) return undefined;
      throw error;
    }
  }

  async forget(hull: string): Promise<void> {
    for (let tries = 0; tries < TRIES; tries += 1) {
      const found = await this.get(hull);
      if (found === undefined) return;
      try {
        await (await this.#database).remove(hull, found.rev);
        return;
      } catch (error) {
        if (statusOf(error) !== 409) throw error;
      }
    }
  }

  async readAgain(): Promise<void> {
    await this.#feed?.again();
  }

  close(): void {
    this.#feed?.stop();
    this.#handle.release();
  }

  get #database(): Promise<Database> {
    return this.#handle.database();
  }

  async #change(
    hull: string,
    to: (summary: Summary | undefined) => Summary | undefined,
  ): Promise<void> {
    for (let tries = 0; tries < TRIES; tries += 1) {
      try {
        const found = await this.get(hull);
        const next = to(found?.summary);
        if (next === undefined) return;
        await (
          await this.#database
        ).put({
          ...documentOf(next),
          ...(found !== undefined && { _rev: found.rev }),
        });
        return;
      } catch (error) {
        if (statusOf(error) === 409) continue;
        this.failure = failureOf(error);
        throw error;
      }
    }
    throw new Error(`the summary of ${hull} changed ${TRIES} times while it was being written`);
  }

  #arrived(arrivals: readonly Arrival[]): void {
    const all = new Map(this.all);
    const heard: Summary[] = [];
    const gone: string[] = [];
    for (const { id, deleted, leaves } of arrivals) {
      if (!isKey(id)) continue;
      if (deleted) {
        all.delete(id);
        gone.push(id);
      } else {
        const summary = summaryIn(leaves[0]);
        all.set(id, summary);
        heard.push(summary);
      }
    }
    this.all = all;
    this.#heard(heard, gone);
  }
}

const TRIES = 8;

function summaryIn(document: StoredDocument): Summary {
  const read = v.safeParse(schema, document);
  if (!read.success) return { ...NOTHING, hull: document._id };
  const { _id: hull, ...rest } = read.output;
  return { hull, ...rest };
}

function documentOf({ hull, ...rest }: Summary): StoredDocument {
  return { _id: hull, ...rest };
}

function statusOf(error: unknown): unknown {
  return typeof error === 'object' && error !== null && 'status' in error
    ? error.status
    : undefined;
}
