import type { Entry } from '../../book/entry.ts';
import { isKind, type BodyOf, type KindName } from '../kinds/kinds.ts';
import { readBody, type BodyRead } from '../kinds/readBody.ts';
import type { Unused } from './report.ts';

/** A standing entry whose body was read. */
export interface Stated<K extends KindName> {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly body: BodyOf<K>;
}

export interface ReadEntries {
  /** Entries of a kind, in the order of their ids. */
  readonly of: <K extends KindName>(kind: K) => readonly Stated<K>[];
  readonly setAside: readonly Unused[];
}

/** Entries never change, so each body is read once, however often a book is folded while somebody types. */
const known = new WeakMap<Entry, BodyRead<KindName>>();

/** Reads the bodies of standing entries, whatever order they come in. Kinds of other rooms are passed over; a body
 *  that its kind cannot read is set aside with the reason. */
export function readStanding(entries: readonly Entry[]): ReadEntries {
  const byKind = new Map<KindName, unknown[]>();
  const setAside: Unused[] = [];
  const ordered = [...entries].sort((a, b) => (a._id < b._id ? -1 : 1));
  for (const entry of ordered) {
    if (!isKind(entry.kind)) continue;
    let read = known.get(entry);
    if (read === undefined) {
      read = readBody(entry.kind, entry.body);
      known.set(entry, read);
    }
    if (!read.ok) {
      setAside.push({ id: entry._id, kind: entry.kind, reason: read.reason });
      continue;
    }
    const list = byKind.get(entry.kind);
    const stated = { id: entry._id, at: entry.at, by: entry.by, body: read.body };
    if (list === undefined) byKind.set(entry.kind, [stated]);
    else list.push(stated);
  }
  return {
    of: <K extends KindName>(kind: K) => (byKind.get(kind) ?? []) as readonly Stated<K>[],
    setAside,
  };
}
