import * as v from 'valibot';

import type { Database, Seq } from '../database.ts';
import type { Denied, Files, Odd } from './exchange.ts';

/** How far a hull's exchange with a server has come. */
export interface Progress {
  /** The hull's database on this device: one that was removed and made anew begins anew. */
  readonly database: string;
  /** Where that database stood when its entries choice and with files were given last. */
  readonly given: Readonly<Record<Files, Seq>>;
  readonly denied: readonly Denied[];
  readonly odd: readonly Odd[];
}

/** Up to where everything that came on the server is here, and the mark that this device left there then. */
export interface PlaceKept {
  readonly seq: Seq;
  /** The choice of hulls that was looked at. */
  readonly choice: string;
  /** Under which this device leaves its marks. */
  readonly key: string;
  readonly mark: string;
}

export const PROGRESS_DATABASE = 'aftrun-sharing';

const seq = v.union([v.number(), v.string()]);
const schema = v.object({
  /** The server, database and user that this was with. */
  with: v.string(),
  database: v.string(),
  given: v.object({ no: seq, yes: seq }),
  denied: v.array(v.object({ id: v.string(), why: v.string() })),
  odd: v.array(v.object({ id: v.string(), reason: v.string() })),
});
const place = v.object({
  with: v.string(),
  seq,
  choice: v.string(),
  key: v.string(),
  mark: v.string(),
});

const FEED = 'feed';

/** How far the exchange has come, kept on the device. It can be thrown away: then everything is compared again. What was
 *  kept of another server counts as nothing. */
export class ProgressKeeper {
  readonly #with: string;
  readonly #database: () => Promise<Database>;

  constructor(database: () => Promise<Database>, partner: string) {
    this.#database = database;
    this.#with = partner;
  }

  async of(hull: string): Promise<Progress | undefined> {
    const read = v.safeParse(schema, await this.#get(hull));
    return read.success && read.output.with === this.#with ? read.output : undefined;
  }

  async keep(hull: string, { database, given, denied, odd }: Progress): Promise<void> {
    await this.#put(hull, { with: this.#with, database, given, denied, odd });
  }

  async place(): Promise<PlaceKept | undefined> {
    const read = v.safeParse(place, await this.#get(FEED));
    return read.success && read.output.with === this.#with ? read.output : undefined;
  }

  async keepPlace({ seq: at, choice, key, mark }: PlaceKept): Promise<void> {
    await this.#put(FEED, { with: this.#with, seq: at, choice, key, mark });
  }

  async #get(id: string): Promise<{ readonly _rev?: string } | undefined> {
    return (await this.#database()).get(id).catch(() => undefined);
  }

  async #put(id: string, fields: object): Promise<void> {
    const before = await this.#get(id);
    const rev = before?._rev === undefined ? {} : { _rev: before._rev };
    await (await this.#database()).put({ _id: id, ...rev, ...fields });
  }
}
