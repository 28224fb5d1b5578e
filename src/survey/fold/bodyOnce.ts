import type { Entry } from '../../book/entry.ts';
import { isKind, type BodyOf, type KindName } from '../kinds/kinds.ts';
import { readBody } from '../kinds/readBody.ts';

export type KnownBody =
  | { readonly ok: true; readonly kind: KindName; readonly body: BodyOf<KindName> }
  | { readonly ok: false; readonly reason: string };

/** Entries never change, so each body is read once, however often a book is folded while somebody types. */
const known = new WeakMap<Entry, KnownBody>();

/** The body of an entry, or why its kind cannot read it; absent for a kind of another room. */
export function bodyOnce(entry: Entry): KnownBody | undefined {
  const { kind } = entry;
  if (!isKind(kind)) return undefined;
  const before = known.get(entry);
  if (before !== undefined) return before;
  const read = readBody(kind, entry.body);
  const found: KnownBody = read.ok ? { ok: true, kind, body: read.body } : read;
  known.set(entry, found);
  return found;
}
