import { type Book, entriesOf } from './book.ts';
import { canonical } from './canonical.ts';
import type { Entry } from './entry.ts';
import { union } from './union.ts';

/** An id that would have more than one content. */
export interface Disputed {
  readonly id: string;
  /** What is here; empty where both contents come with the file. */
  readonly here: readonly Entry[];
  /** What comes and is not here. */
  readonly brought: readonly Entry[];
}

/** What taking one book into another would do, before it is done. Every content that is brought is in one of the
 *  three, and in one only. */
export interface UnionPreview {
  /** Entries whose id is not here, in the order of ids. */
  readonly fresh: readonly Entry[];
  /** Entries that are here with the same content. */
  readonly same: readonly Entry[];
  readonly disputed: readonly Disputed[];
  /** The two as one: what would be here afterwards. */
  readonly after: Book;
}

/** Compares contents by their canonical text. Throws RangeError, as `canonical` does, on one that JSON cannot say. */
export function previewUnion(here: Book, brought: Book): UnionPreview {
  const fresh: Entry[] = [];
  const same: Entry[] = [];
  const disputed = new Map<string, Entry[]>();
  for (const entry of entriesOf(brought)) {
    const known = contentsOf(here, entry._id);
    const text = known.length === 0 ? '' : canonical(entry);
    if (known.some((each) => canonical(each) === text)) same.push(entry);
    else if (known.length > 0 || brought.conflicts.has(entry._id)) {
      const beside = disputed.get(entry._id);
      if (beside === undefined) disputed.set(entry._id, [entry]);
      else beside.push(entry);
    } else fresh.push(entry);
  }
  return {
    fresh,
    same,
    disputed: [...disputed].map(([id, contents]) => ({
      id,
      here: contentsOf(here, id),
      brought: contents,
    })),
    after: union(here, brought),
  };
}

function contentsOf(book: Book, id: string): readonly Entry[] {
  const entry = book.entries.get(id);
  return entry === undefined ? (book.conflicts.get(id) ?? []) : [entry];
}
