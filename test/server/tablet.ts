import { Remote } from '../../web/store/sharing/remote.ts';
import { Sharing, type Told } from '../../web/store/sharing/sharing.svelte.ts';
import type { Carry, Without } from '../../web/store/sharing/settings.ts';
import type { Database } from '../../web/store/database.ts';
import { hullDatabase } from '../../web/store/database.ts';
import { Handles } from '../../web/store/handles.ts';
import { writeEntries } from '../../web/store/entryStore.ts';
import { readEntries } from '../../web/store/entryFiles.ts';
import type { Entry } from '../../src/book/entry.ts';
import { bookOf, type Book } from '../../src/book/book.ts';
import { memoryPouch } from './memoryPouch.ts';

let count = 0;

export interface TabletOptions {
  readonly user?: string;
  readonly password?: string;
  readonly carry?: Carry;
  readonly database?: string;
  readonly without?: readonly Without[];
}

/** A tablet without a screen: databases in memory, sharing with a server, and a plug that can be pulled. */
export class Tablet {
  readonly #prefix = `tablet-${(count += 1)}-`;
  readonly #made = new Map<string, Database>();
  readonly handles: Handles;
  readonly hulls = new Set<string>();
  readonly told: Told[] = [];
  /** While false no request reaches the server. */
  online = true;
  /** What stands between this tablet and the server, and may answer in its place or fail. */
  between: (url: string, given?: RequestInit) => Promise<Response> | undefined = () => undefined;
  sharing: Sharing | undefined;

  constructor() {
    const after = (milliseconds: number, call: () => void): (() => void) => {
      const timer = setTimeout(call, milliseconds);
      return () => clearTimeout(timer);
    };
    this.#after = after;
    this.handles = new Handles((name) => this.open(name), after);
  }

  readonly #after: (milliseconds: number, call: () => void) => () => void;

  /** In memory all handles of a name share one store: none of them closes it. */
  open(name: string): Database {
    const known = this.#made.get(name);
    if (known !== undefined) return known;
    const made = new memoryPouch(this.#prefix + name, { adapter: 'memory' });
    made.close = () => Promise.resolve();
    this.#made.set(name, made);
    return made;
  }

  /** Destroys a database, as removing its hull does. */
  async destroy(name: string): Promise<void> {
    await this.open(name).destroy();
    this.#made.delete(name);
  }

  share(server: string, options: TabletOptions = {}): Sharing {
    const settings = {
      server,
      database: options.database ?? 'yard',
      user: options.user ?? 'hand',
      password: options.password ?? 'a word',
      carry: options.carry ?? { what: 'all' as const },
      ...(options.without !== undefined && { without: options.without }),
    };
    const remote = new Remote({
      settings,
      fetch: (url, given) =>
        this.online
          ? (this.between(url, given) ?? fetch(url, given))
          : Promise.reject(new TypeError('fetch failed: the plug is pulled')),
      open: (address, ask) => new memoryPouch(address, { skip_setup: true, fetch: ask }),
      online: () => this.online,
    });
    this.sharing = new Sharing({
      settings,
      remote,
      around: {
        now: () => new Date(),
        after: (milliseconds, call) => this.#after(Math.min(milliseconds, 300), call),
        alone: (_, work) => work(),
        random: (count) => crypto.getRandomValues(new Uint8Array(count)),
        onVisible: () => () => undefined,
      },
      handles: this.handles,
      hulls: () => [...this.hulls],
      mark: (hull) => {
        this.hulls.add(hull);
        return Promise.resolve();
      },
      came: () => undefined,
      tell: (told) => this.told.push(told),
    });
    return this.sharing;
  }

  /** States entries, as the store does. */
  async enter(entries: readonly Entry[]): Promise<void> {
    const byHull = new Map<string, Entry[]>();
    for (const entry of entries) {
      const hull = entry._id.slice(0, 12);
      byHull.set(hull, [...(byHull.get(hull) ?? []), entry]);
    }
    for (const [hull, list] of byHull) {
      this.hulls.add(hull);
      await writeEntries(this.open(hullDatabase(hull)), list, () => new Uint8Array(16).fill(7));
      this.sharing?.written(hull);
    }
  }

  async book(hull: string): Promise<Book> {
    return bookOf(await readEntries(this.open(hullDatabase(hull))));
  }
}
