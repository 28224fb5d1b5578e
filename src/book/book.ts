import { canonical } from './canonical.ts';
import type { Entry } from './entry.ts';

/** Entries by id, in the order of their ids. An id that came with more than one content is a conflict: it stands in
 *  `conflicts` with all of them, in the order of their canonical text, and not in `entries`. */
export interface Book {
  readonly entries: ReadonlyMap<string, Entry>;
  readonly conflicts: ReadonlyMap<string, readonly Entry[]>;
}

/** The book of some entries, in whatever order and however often each came. Two entries are one when their canonical
 *  texts are the same. Throws RangeError, as `canonical` does, on one of two entries that share an id. */
export function bookOf(all: Iterable<Entry>): Book {
  const contents = new Map<string, Entry[]>();
  for (const entry of all) {
    const known = contents.get(entry._id);
    if (known === undefined) contents.set(entry._id, [entry]);
    else if (!known.includes(entry)) known.push(entry);
  }
  const entries = new Map<string, Entry>();
  const conflicts = new Map<string, readonly Entry[]>();
  for (const [id, found] of [...contents].sort(byText)) {
    const different = found.length > 1 ? withoutTwins(found) : found;
    if (different.length === 1) entries.set(id, different[0]);
    else conflicts.set(id, different);
  }
  return { entries, conflicts };
}

/** Every entry of a book, each content of a conflict too, in the order of ids. */
export function entriesOf(book: Book): readonly Entry[] {
  const contents: [string, readonly Entry[]][] = [...book.conflicts];
  for (const [id, entry] of book.entries) contents.push([id, [entry]]);
  return contents.sort(byText).flatMap(([, found]) => found);
}

function withoutTwins(found: readonly Entry[]): readonly Entry[] {
  const byContent = new Map<string, Entry>();
  for (const entry of found) {
    const text = canonical(entry);
    if (!byContent.has(text)) byContent.set(text, entry);
  }
  return [...byContent].sort(byText).map(([, entry]) => entry);
}

/** By code units, as stores sort; never by a language's rules, which differ between devices. */
function byText([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
