import type { Entry, Strike } from '../../book/entry.ts';
import { ENVELOPE_VERSION } from '../../book/envelope.ts';
import { NO_SURVEY, parseId } from '../../book/id.ts';
import { KINDS, type BodyOf, type KindName } from './kinds.ts';
import { readBody } from './readBody.ts';

/** An entry that nobody has signed yet: what it says, without id, time and person. */
export interface Draft {
  /** A name by which other drafts of the same list refer to this one. */
  readonly ref: string;
  readonly kind: KindName;
  /** Whether the id must carry the survey's key. */
  readonly scope: 'hull' | 'survey';
  readonly body: Readonly<Record<string, unknown>>;
  readonly strikes?: readonly Strike[];
  readonly why?: string;
}

export interface Signature {
  /** ISO 8601 with a zone. */
  readonly at: string;
  readonly by: string;
  readonly device: string;
  readonly app: string;
}

export interface DraftOptions {
  readonly ref?: string;
  /** For a kind that may belong to either; elsewhere the kind decides. */
  readonly scope?: 'hull' | 'survey';
  readonly strikes?: readonly Strike[];
  readonly why?: string;
}

/** A draft of a kind. Throws RangeError on a body that the kind would not read: a hull in slings, a length that is
 *  no number. */
export function draftOf<K extends KindName>(
  kind: K,
  body: BodyOf<K>,
  options: DraftOptions = {},
): Draft {
  const read = readBody(kind, body);
  if (!read.ok) throw new RangeError(`${kind}: ${read.reason}`);
  return uncheckedDraft(kind, body, options);
}

/** A draft whose body nobody has looked at: for lists that are checked as a whole. */
export function uncheckedDraft<K extends KindName>(
  kind: K,
  body: BodyOf<K>,
  { ref = '', scope, strikes, why }: DraftOptions = {},
): Draft {
  const own = KINDS[kind].scope;
  return {
    ref,
    kind,
    scope: own === 'either' ? (scope ?? 'hull') : own,
    body: body,
    ...(strikes !== undefined && { strikes }),
    ...(why !== undefined && { why }),
  };
}

/** What an entry must strike to take the place of another: that one, and what that one struck, or else the former
 *  would stand again. */
export function strikesToReplace(former: Entry): readonly Strike[] {
  return [{ entry: former._id }, ...(former.strikes ?? [])];
}

/** The entry that a draft becomes under an id. References to other drafts are looked up in `ids`, from ref to id;
 *  those not found there are taken for ids.
 *  Throws RangeError when the id has no such form, or belongs to the hull where the survey's key is wanted, or the
 *  other way about. */
export function stamp(
  draft: Draft,
  info: Signature & { readonly id: string },
  ids: ReadonlyMap<string, string> = new Map(),
): Entry {
  const parsed = parseId(info.id);
  if (!parsed.ok) throw new RangeError(`id of a ${draft.kind}: ${parsed.reason}`);
  if ((parsed.survey === NO_SURVEY) !== (draft.scope === 'hull')) {
    throw new RangeError(
      `id of a ${draft.kind}: got ${info.id}, expected one of the ${draft.scope}`,
    );
  }
  const resolve = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(resolve);
    return (typeof value === 'string' ? ids.get(value) : undefined) ?? value;
  };
  const refers = new Set(KINDS[draft.kind].refers);
  const body = Object.fromEntries(
    Object.entries(draft.body).map(([name, value]) => [
      name,
      refers.has(name) ? resolve(value) : value,
    ]),
  );
  return {
    _id: info.id,
    v: ENVELOPE_VERSION,
    kind: draft.kind,
    at: info.at,
    by: info.by,
    device: info.device,
    app: info.app,
    ...(draft.strikes !== undefined && { strikes: draft.strikes }),
    ...(draft.why !== undefined && { why: draft.why }),
    body,
  };
}

/** The entries that a list of drafts becomes under as many ids, in the same order, references put right.
 *  Throws RangeError when there are not as many ids as drafts, when two drafts bear one ref, and as `stamp` does. */
export function stampAll(
  drafts: readonly Draft[],
  info: Signature & { readonly ids: readonly string[] },
): readonly Entry[] {
  const { ids, ...signature } = info;
  if (ids.length !== drafts.length) {
    throw new RangeError(`ids: got ${ids.length}, expected ${drafts.length}, one for each draft`);
  }
  const named = new Map<string, string>();
  const pairs = drafts.map((draft, index) => ({ draft, id: ids[index] }));
  for (const { draft, id } of pairs) {
    if (draft.ref === '') continue;
    if (named.has(draft.ref)) throw new RangeError(`ref: got ${draft.ref} twice`);
    named.set(draft.ref, id);
  }
  return pairs.map(({ draft, id }) => stamp(draft, { ...signature, id }, named));
}
