import * as v from 'valibot';

import type { Database, Seq } from '../database.ts';
import type { Denied, Files, Odd } from './exchange.ts';

/** How far a hull's exchange with a server has come. */
export interface Progress {
  /** Where the hull's database stood when its entries without and with files were given last. */
  readonly given: Readonly<Record<Files, Seq>>;
  readonly denied: readonly Denied[];
  readonly odd: readonly Odd[];
}

export const PROGRESS_DATABASE = 'aftrun-sharing';

const seq = v.union([v.number(), v.string()]);
const schema = v.object({
  /** The server, database and choice of hulls that this was with. */
  with: v.string(),
  given: v.object({ no: seq, yes: seq }),
  denied: v.array(v.object({ id: v.string(), why: v.string() })),
  odd: v.array(v.object({ id: v.string(), reason: v.string() })),
});
const heard = v.object({ with: v.string(), seq });

const NONE: Progress = { given: { no: 0, yes: 0 }, denied: [], odd: [] };
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

  async of(hull: string): Promise<Progress> {
    const read = v.safeParse(schema, await this.#get(hull));
    return read.success && read.output.with === this.#with ? read.output : NONE;
  }

  async keep(hull: string, { given, denied, odd }: Progress): Promise<void> {
    await this.#put(hull, { with: this.#with, given, denied, odd });
  }

  /** Up to where everything that came on the server is here. */
  async heard(): Promise<Seq> {
    const read = v.safeParse(heard, await this.#get(FEED));
    return read.success && read.output.with === this.#with ? read.output.seq : 0;
  }

  async keepHeard(seq: Seq): Promise<void> {
    await this.#put(FEED, { with: this.#with, seq });
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
