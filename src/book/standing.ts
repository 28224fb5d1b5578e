import type { Book } from './book.ts';
import type { Entry } from './entry.ts';
import { strikeVerdicts } from './strikeVerdicts.ts';

/** An entry that is struck, and the ids of the standing entries that strike it. */
export interface Struck {
  readonly entry: Entry;
  readonly by: readonly string[];
}

/** An id whose entry cannot be counted, with every content that it came with. */
export interface SetAside {
  readonly id: string;
  /** `two contents`: one id came with several; `cycle`: it strikes itself, directly or by way of others. */
  readonly reason: 'two contents' | 'cycle';
  readonly contents: readonly Entry[];
  /** The ids of the standing entries that strike it: a person has dealt with it. */
  readonly by: readonly string[];
}

export interface Standing {
  readonly standing: readonly Entry[];
  readonly struck: readonly Struck[];
  readonly setAside: readonly SetAside[];
  /** Rows that standing entries strike, ascending, by the id of the entry whose rows they are. */
  readonly struckRows: ReadonlyMap<string, readonly number[]>;
}

/** What of a book stands. An entry stands unless a standing entry strikes it, so that an undo is a strike and a redo
 *  the strike of that strike. Entries that strike one another in a ring, and that nothing standing breaks open, are
 *  set aside; what is set aside strikes nothing. A strike with a row strikes that row alone, and the entry stands. A
 *  strike of an entry that has not arrived waits for it. Every list is in the order of ids; nothing depends on when
 *  an entry was stated or arrived. Time grows with entries and strikes, also along a chain of strikes of any length;
 *  only rings inside rings, which no person makes, cost more. */
export function standing(book: Book): Standing {
  const strikesOf = new Map<string, readonly string[]>();
  for (const [id, entry] of book.entries) {
    const whole = (entry.strikes ?? []).filter((strike) => strike.row === undefined);
    strikesOf.set(id, [...new Set(whole.map((strike) => strike.entry))]);
  }
  const verdicts = strikeVerdicts(strikesOf);
  const standers: Entry[] = [];
  const by = new Map<string, string[]>();
  for (const [id, entry] of book.entries) {
    if (verdicts.get(id) !== 'stands') continue;
    standers.push(entry);
    for (const target of strikesOf.get(id) ?? []) pushTo(by, target, id);
  }
  const struck: Struck[] = [];
  const setAside: SetAside[] = [];
  for (const [id, entry] of book.entries) {
    const verdict = verdicts.get(id);
    if (verdict === 'struck') struck.push({ entry, by: by.get(id) ?? [] });
    if (verdict === 'cycle') {
      setAside.push({ id, reason: 'cycle', contents: [entry], by: by.get(id) ?? [] });
    }
  }
  for (const [id, contents] of book.conflicts) {
    setAside.push({ id, reason: 'two contents', contents, by: by.get(id) ?? [] });
  }
  setAside.sort((a, b) => (a.id < b.id ? -1 : 1));
  return { standing: standers, struck, setAside, struckRows: rowsStruckBy(standers, book) };
}

function rowsStruckBy(
  standers: readonly Entry[],
  book: Book,
): ReadonlyMap<string, readonly number[]> {
  const rows = new Map<string, Set<number>>();
  for (const { strikes = [] } of standers) {
    for (const { entry, row } of strikes) {
      if (row === undefined || !book.entries.has(entry)) continue;
      const known = rows.get(entry);
      if (known === undefined) rows.set(entry, new Set([row]));
      else known.add(row);
    }
  }
  return new Map(
    [...rows]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([id, set]) => [id, [...set].sort((a, b) => a - b)]),
  );
}

function pushTo(lists: Map<string, string[]>, key: string, item: string): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [item]);
  else list.push(item);
}
