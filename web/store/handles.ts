import type { Database, OpenDatabase } from './database.ts';
import { within } from './within.ts';

interface Held {
  database: Promise<Database>;
  count: number;
}

/** A share in an open database. */
export interface Handle {
  /** The database; what is wrong with it shows at its first answer. */
  database(): Promise<Database>;
  /** Gives the share back; the last one closes the database. */
  release(): void;
  /** Replaces a database that no longer answers, for every later use of any share. */
  renew(): void;
}

/** How long a database may take to close before it is left to itself, ms. */
const CLOSE_WITHIN = 2_000;

/** Open databases by name, each once: all PouchDB databases of one name in a page share a connection, so closing one
 *  would close it under the others, and one that opens while another closes gets the one that closes. */
export class Handles {
  readonly #open: OpenDatabase;
  readonly #after: (milliseconds: number, call: () => void) => () => void;
  readonly #held = new Map<string, Held>();
  readonly #closing = new Map<string, Promise<void>>();

  constructor(open: OpenDatabase, after: (milliseconds: number, call: () => void) => () => void) {
    this.#open = open;
    this.#after = after;
  }

  take(name: string): Handle {
    const held = this.#held.get(name) ?? { database: this.#opened(name), count: 0 };
    this.#held.set(name, held);
    held.count += 1;
    let seen = held.database;
    let released = false;
    return {
      database: () => held.database,
      release: () => {
        if (released) return;
        released = true;
        held.count -= 1;
        if (held.count > 0) return;
        this.#held.delete(name);
        this.#close(name, held.database);
      },
      renew: () => {
        // Another share may have renewed it meanwhile.
        if (held.database === seen) {
          this.#close(name, held.database);
          held.database = this.#opened(name);
        }
        seen = held.database;
      },
    };
  }

  /** Uses a database, opened for that where it is not open already. */
  async within<T>(name: string, use: (database: Database) => Promise<T>): Promise<T> {
    const handle = this.take(name);
    try {
      return await use(await handle.database());
    } finally {
      handle.release();
    }
  }

  async #opened(name: string): Promise<Database> {
    await this.#closing.get(name);
    return this.#open(name);
  }

  #close(name: string, database: Promise<Database>): void {
    const closed = database.then((one) => one.close());
    const closing = within(CLOSE_WITHIN, closed, this.#after)
      // One that is being given up has nothing more to say.
      .catch(() => undefined)
      .finally(() => {
        if (this.#closing.get(name) === closing) this.#closing.delete(name);
      });
    this.#closing.set(name, closing);
  }
}
