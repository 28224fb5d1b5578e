import { canonical } from '../../book/canonical.ts';
import type { KindName } from '../kinds/kinds.ts';
import type { Stated } from './readStanding.ts';
import type { Disagreement } from './report.ts';

/** One thing that entries speak of: the id by which others refer to it, and the statement that is shown. */
export interface Thing<K extends KindName> {
  /** Id of the entry that first stated it, or the name that stands for it. */
  readonly id: string;
  readonly shown: Stated<K>;
}

export interface Things<K extends KindName> {
  /** In the order of their ids. */
  readonly list: readonly Thing<K>[];
  /** By the thing's own id and by those of every statement of it. */
  readonly find: ReadonlyMap<string, Thing<K>>;
  readonly disagreements: readonly Disagreement[];
}

/** Gathers statements by the thing that they are about. Where several stand, the last by id is shown, only so that
 *  every device shows the same; unless they say the same they are a disagreement.
 *  `stated`: in the order of their ids. `identity`: which thing a statement is about. `name`: that thing in words. */
export function thingsOf<K extends KindName>(
  stated: readonly Stated<K>[],
  identity: (statement: Stated<K>) => string,
  name: (statement: Stated<K>) => string,
): Things<K> {
  const groups = new Map<string, Stated<K>[]>();
  for (const statement of stated) {
    const id = identity(statement);
    const group = groups.get(id);
    if (group === undefined) groups.set(id, [statement]);
    else group.push(statement);
  }
  const list: Thing<K>[] = [];
  const find = new Map<string, Thing<K>>();
  const disagreements: Disagreement[] = [];
  for (const [id, group] of [...groups].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const shown = group[group.length - 1];
    const thing = { id, shown };
    list.push(thing);
    for (const statement of group) find.set(statement.id, thing);
    const said = new Set(group.map((statement) => canonical(withoutIdentity(statement.body))));
    if (said.size > 1) {
      disagreements.push({ about: name(shown), entries: group.map((statement) => statement.id) });
    }
  }
  for (const thing of list) find.set(thing.id, thing);
  return { list, find, disagreements };
}

/** The thing that a statement is about, for kinds whose corrections say `sameAs`. */
export function firstStated(statement: {
  readonly id: string;
  readonly body: { readonly sameAs?: string };
}): string {
  return statement.body.sameAs ?? statement.id;
}

function withoutIdentity(body: object): object {
  return Object.fromEntries(Object.entries(body).filter(([field]) => field !== 'sameAs'));
}
