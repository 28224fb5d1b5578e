import type { Entry } from '../../book/entry.ts';
import type { BodyOf, KindName } from '../kinds/kinds.ts';
import { bodyOnce } from './bodyOnce.ts';
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

/** Reads the bodies of standing entries, whatever order they come in. Kinds of other rooms are passed over; a body
 *  that its kind cannot read is set aside with the reason. */
export function readStanding(entries: readonly Entry[]): ReadEntries {
  const byKind = new Map<KindName, unknown[]>();
  const setAside: Unused[] = [];
  const ordered = [...entries].sort((a, b) => (a._id < b._id ? -1 : 1));
  for (const entry of ordered) {
    const read = bodyOnce(entry);
    if (read === undefined) continue;
    if (!read.ok) {
      setAside.push({ id: entry._id, kind: entry.kind, reason: read.reason });
      continue;
    }
    const list = byKind.get(read.kind);
    const stated = { id: entry._id, at: entry.at, by: entry.by, body: read.body };
    if (list === undefined) byKind.set(read.kind, [stated]);
    else list.push(stated);
  }
  return {
    of: <K extends KindName>(kind: K) => (byKind.get(kind) ?? []) as readonly Stated<K>[],
    setAside,
  };
}
