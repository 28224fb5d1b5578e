import { canonical } from '../../src/book/canonical.ts';
import type { Entry } from '../../src/book/entry.ts';

/** Entries in memory by id, each content once. An entry that comes again stays the object that it was, so that what
 *  was read from it need not be read again. */
export class HeldEntries {
  readonly #byId = new Map<string, Entry[]>();

  /** Takes entries; whether any of them was new. */
  add(entries: Iterable<Entry>): boolean {
    let changed = false;
    for (const entry of entries) {
      const known = this.#byId.get(entry._id);
      if (known === undefined) this.#byId.set(entry._id, [entry]);
      else if (known.includes(entry) || includesContent(known, entry)) continue;
      else known.push(entry);
      changed = true;
    }
    return changed;
  }

  /** The contents of an id; none where it is not known. */
  of(id: string): readonly Entry[] {
    return this.#byId.get(id) ?? [];
  }

  all(): readonly Entry[] {
    return [...this.#byId.values()].flat();
  }
}

function includesContent(known: readonly Entry[], entry: Entry): boolean {
  const text = canonical(entry);
  return known.some((one) => canonical(one) === text);
}
