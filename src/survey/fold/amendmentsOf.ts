import type { Entry } from '../../book/entry.ts';
import type { Standing } from '../../book/standing.ts';
import type { Signable } from './signableOf.ts';

/** An entry, or one row of an import. */
export interface Statement {
  readonly entry: Entry;
  readonly row?: number;
}

/** One thing that stands otherwise than it was signed. `changed`: added in the place of what it strikes.
 *  `restored`: it was struck when signed, and is not any more. `not counted`: it stands, but the survey no longer rests on it. */
export interface Amendment {
  readonly is: 'added' | 'changed' | 'struck' | 'restored' | 'not counted';
  /** What was added, struck or restored. */
  readonly what: Statement;
  /** What `changed` took the place of. */
  readonly insteadOf: readonly Statement[];
  /** When, by whom and why, as the entry says that did it; absent where none did. */
  readonly at?: string;
  readonly by?: string;
  readonly why?: string;
}

/** What was signed, by id; `rows` as `<id>#<row>`. */
export interface Signed {
  readonly entries: readonly string[];
  readonly rows: readonly string[];
}

/** What has come, gone or been put in another's place since something was signed, in the order in which it was stated.
 *  `now`: what would be signed now. An entry signed that is not in the book is no amendment: it is missing. */
export function amendmentsOf(
  stands: Standing,
  signed: Signed,
  now: Signable,
): readonly Amendment[] {
  const before = new Set([...signed.entries, ...signed.rows]);
  const after = new Set([...now.entries.map(({ _id }) => _id), ...now.rows]);
  const known = new Map(
    [...stands.standing, ...stands.struck.map(({ entry }) => entry)].map((e) => [e._id, e]),
  );
  const standing = new Set(stands.standing.map(({ _id }) => _id));
  const strikers = new Map<string, Entry[]>();
  for (const entry of known.values()) {
    for (const { entry: target, row } of entry.strikes ?? []) {
      const name = row === undefined ? target : `${target}#${row}`;
      strikers.set(name, [...(strikers.get(name) ?? []), entry]);
    }
  }
  const statementOf = (name: string): Statement[] => {
    const [id, row] = name.split('#');
    const entry = known.get(id);
    if (entry === undefined) return [];
    return [{ entry, ...(row !== undefined && { row: Number(row) }) }];
  };

  const added = now.entries.filter(({ _id }) => !before.has(_id));
  const gone = [
    ...signed.entries.filter((id) => known.has(id) && !after.has(id)),
    ...now.rows.filter((row) => !before.has(row)),
  ];
  const replaced = new Set<string>();
  const comings = added.map((entry): Amendment => {
    const insteadOf = gone.filter((name) => strikers.get(name)?.includes(entry));
    for (const name of insteadOf) replaced.add(name);
    const undone = strikers.get(entry._id)?.flatMap(({ _id }) => strikers.get(_id) ?? []);
    const restorer = undone?.find(({ _id }) => standing.has(_id));
    if (insteadOf.length === 0 && restorer !== undefined) {
      return { is: 'restored', what: { entry }, insteadOf: [], ...signOf(restorer) };
    }
    return {
      is: insteadOf.length > 0 ? 'changed' : 'added',
      what: { entry },
      insteadOf: insteadOf.flatMap(statementOf),
      ...signOf(entry),
    };
  });
  const goings = gone
    .filter((name) => !replaced.has(name))
    .flatMap((name) =>
      statementOf(name).map((what): Amendment => {
        const striker = strikers.get(name)?.find(({ _id }) => standing.has(_id));
        if (striker === undefined) return { is: 'not counted', what, insteadOf: [] };
        return { is: 'struck', what, insteadOf: [], ...signOf(striker) };
      }),
    );
  const rowsBack = signed.rows
    .filter((row) => !after.has(row) && after.has(row.split('#')[0]))
    .flatMap((row) =>
      statementOf(row).map((what): Amendment => {
        const undone = strikers.get(row)?.flatMap(({ _id }) => strikers.get(_id) ?? []);
        const restorer = undone?.find(({ _id }) => standing.has(_id));
        return { is: 'restored', what, insteadOf: [], ...(restorer && signOf(restorer)) };
      }),
    );
  return [...comings, ...goings, ...rowsBack].sort(byTime);
}

function signOf({ at, by, why }: Entry): Pick<Amendment, 'at' | 'by' | 'why'> {
  return { at, by, ...(why !== undefined && { why }) };
}

/** Those whose time is not known last; then by id, so that every device shows the same. */
function byTime(a: Amendment, b: Amendment): number {
  const [one, other] = [a, b].map(({ at }) => (at === undefined ? Infinity : Date.parse(at)));
  if (one !== other) return one < other ? -1 : 1;
  return a.what.entry._id < b.what.entry._id ? -1 : 1;
}
