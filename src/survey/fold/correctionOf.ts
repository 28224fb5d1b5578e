import type { Entry, Strike } from '../../book/entry.ts';
import { draftOf, strikesToReplace, type Draft } from '../kinds/draft.ts';
import { KINDS, type BodyOf, type KindName } from '../kinds/kinds.ts';

/** Ids of the standing entries that state a thing of a kind: those to replace when it is put right. `id`: that of the
 *  thing, as folds give it. */
export function statementsOf(
  standing: readonly Entry[],
  kind: KindName,
  id: string,
): readonly string[] {
  return standing
    .filter((entry) => entry.kind === kind && (entry._id === id || sameAsOf(entry) === id))
    .map((entry) => entry._id)
    .sort();
}

/** The fix of what was stated: a draft that says `body` and strikes the `sources`, and what they struck before. Each
 *  source is the id of a standing entry, or `<id>#<row>` of an import's row. References to the thing hold: the
 *  draft says which thing it is. To look again, or to lay again, is no fix.
 *  Throws RangeError when no source is given, when one is not among `standing`, and on a body that cannot be read. */
export function correctionOf<K extends KindName>(
  standing: readonly Entry[],
  sources: readonly string[],
  kind: K,
  body: BodyOf<K>,
  why?: string,
): Draft {
  const formers = sources.map((source) => {
    const [id = '', row] = source.split('#');
    const entry = standing.find((candidate) => candidate._id === id);
    if (entry === undefined)
      throw new RangeError(`source: got ${source}, expected one that stands`);
    return { entry, row };
  });
  if (formers.length === 0) throw new RangeError('sources: got none, expected at least one');
  const strikes = formers.flatMap(({ entry, row }): readonly Strike[] =>
    row === undefined ? strikesToReplace(entry) : [{ entry: entry._id, row: Number(row) }],
  );
  const [{ entry }] = formers;
  const sameAs = sameAsOf(entry) ?? entry._id;
  const keepsIdentity = KINDS[kind].refers.includes('sameAs') && entry.kind === kind;
  return draftOf(kind, keepsIdentity ? { ...body, sameAs } : body, {
    scope: /^[^:]*:0:/.test(entry._id) ? 'hull' : 'survey',
    strikes: withoutTwins(strikes),
    ...(why !== undefined && { why }),
  });
}

function sameAsOf(entry: Entry): string | undefined {
  const body: unknown = entry.body;
  if (typeof body !== 'object' || body === null || !('sameAs' in body)) return undefined;
  return typeof body.sameAs === 'string' ? body.sameAs : undefined;
}

function withoutTwins(strikes: readonly Strike[]): readonly Strike[] {
  const seen = new Map(strikes.map((strike) => [`${strike.entry}#${strike.row ?? ''}`, strike]));
  return [...seen.values()];
}
