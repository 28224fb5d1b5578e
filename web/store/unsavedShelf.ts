import type { Entry } from '../../src/book/entry.ts';
import { readEntry } from '../../src/book/envelope.ts';
import { parseId } from '../../src/book/id.ts';

export type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

const PREFIX = 'aftrun-unsaved-';

/** Entries that no database has taken yet when the page goes, each under its id on a shelf that takes a word at once, such
 *  as localStorage: a database answers later, when nobody may be there any more. Whoever opens the hull next takes them in
 *  as they were stated, so that one which the database did take after all is not there twice. Where the shelf is missing,
 *  blocked or full, nothing is kept. */
export class UnsavedShelf {
  readonly #shelf: Shelf | undefined;
  /** Ids that this tab has put there, or found. */
  readonly #known = new Set<string>();

  constructor(shelf: Shelf | undefined) {
    this.#shelf = shelf;
  }

  keep(entries: readonly Entry[]): void {
    for (const entry of entries) {
      this.#try((shelf) => shelf.setItem(PREFIX + entry._id, JSON.stringify(entry)));
      this.#known.add(entry._id);
    }
  }

  /** A database has them. */
  drop(entries: readonly Entry[]): void {
    for (const { _id } of entries) {
      if (this.#known.delete(_id)) this.#try((shelf) => shelf.removeItem(PREFIX + _id));
    }
  }

  /** What was kept of a hull. What is no entry stays where it is. */
  of(hull: string): readonly Entry[] {
    const entries: Entry[] = [];
    for (const id of this.#ids(hull)) {
      this.#try((shelf) => {
        const read = readEntry(JSON.parse(shelf.getItem(PREFIX + id) ?? 'null'));
        if (read.ok && read.entry._id === id) entries.push(read.entry);
      });
    }
    for (const { _id } of entries) this.#known.add(_id);
    return entries;
  }

  /** The hulls of which something was kept. */
  hulls(): readonly string[] {
    const hulls = this.#ids().map((id) => parseId(id));
    return [...new Set(hulls.flatMap((parsed) => (parsed.ok ? [parsed.hull] : [])))];
  }

  /** Gives up what was kept of a hull: it was removed from this device. */
  forget(hull: string): void {
    for (const id of this.#ids(hull)) this.#try((shelf) => shelf.removeItem(PREFIX + id));
  }

  #ids(hull?: string): readonly string[] {
    const start = hull === undefined ? PREFIX : `${PREFIX}${hull}:`;
    const keys: string[] = [];
    this.#try((shelf) => {
      for (let place = 0; place < shelf.length; place += 1) {
        const key = shelf.key(place);
        if (key?.startsWith(start) === true) keys.push(key.slice(PREFIX.length));
      }
    });
    return keys.sort();
  }

  #try(use: (shelf: Shelf) => void): void {
    try {
      if (this.#shelf !== undefined) use(this.#shelf);
    } catch {
      // As where there is no shelf; or no entry.
    }
  }
}
