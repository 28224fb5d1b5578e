import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { standing } from '../../src/book/standing.ts';
import { union } from '../../src/book/union.ts';
import { anyBook, anyEntries, entryOf, idOf, striker } from './samples.ts';

/** The numbers of the entries that stand, are struck, and are set aside. */
function judged(...entries: readonly Entry[]): {
  stands: number[];
  struck: number[];
  aside: number[];
} {
  const numberOf = new Map(Array.from({ length: 40 }, (_, n) => [idOf(n), n]));
  const number = (id: string): number => numberOf.get(id) ?? NaN;
  const result = standing(bookOf(entries));
  return {
    stands: result.standing.map((entry) => number(entry._id)),
    struck: result.struck.map(({ entry }) => number(entry._id)),
    aside: result.setAside.map(({ id }) => number(id)),
  };
}

/** The same by the plainest means: no order of work, everything looked up anew at each step. */
function byDefinition(targets: readonly (readonly number[])[]): ReturnType<typeof judged> {
  const all = targets.map((_, n) => n);
  const verdict: (string | undefined)[] = all.map(() => undefined);
  const strikersOf = (n: number): number[] => all.filter((other) => targets[other].includes(n));
  const reaches = (from: number, to: number): boolean => {
    const open = [from];
    const seen = new Set<number>();
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      for (const next of targets[at].filter((n) => verdict[n] === undefined && !seen.has(n))) {
        seen.add(next);
        open.push(next);
      }
    }
    return seen.has(to);
  };
  for (;;) {
    const open = all.filter((n) => verdict[n] === undefined);
    const struck = open.filter((n) => strikersOf(n).some((other) => verdict[other] === 'stands'));
    const free = open.filter((n) =>
      strikersOf(n).every((s) => ['struck', 'aside'].includes(String(verdict[s]))),
    );
    if (struck.length > 0) for (const n of struck) verdict[n] = 'struck';
    else if (free.length > 0) for (const n of free) verdict[n] = 'stands';
    else if (open.length > 0) {
      const first = open.filter((n) =>
        open.every((other) => !reaches(other, n) || reaches(n, other)),
      );
      for (const n of first) verdict[n] = 'aside';
    } else break;
  }
  const are = (word: string): number[] => all.filter((n) => verdict[n] === word);
  return { stands: are('stands'), struck: are('struck'), aside: are('aside') };
}

describe('standing', () => {
  it('lets an entry stand until a standing entry strikes it; undo strikes, redo strikes the undo', () => {
    const said = entryOf(1);
    const undo = striker(2, 1);
    const redo = striker(3, 2);
    expect(judged(said)).toEqual({ stands: [1], struck: [], aside: [] });
    expect(judged(said, undo)).toEqual({ stands: [2], struck: [1], aside: [] });
    expect(judged(said, undo, redo)).toEqual({ stands: [1, 3], struck: [2], aside: [] });
  });

  it('names the standing entries that strike, and no others', () => {
    const book = bookOf([entryOf(1), striker(2, 1), striker(3, 1), striker(4, 1), striker(5, 4)]);
    expect(standing(book).struck).toEqual([
      { entry: entryOf(1), by: [idOf(2), idOf(3)] },
      { entry: striker(4, 1), by: [idOf(5)] },
    ]);
  });

  it('keeps a strike of an entry that has not arrived, and applies it when it does', () => {
    expect(judged(striker(2, 1))).toEqual({ stands: [2], struck: [], aside: [] });
    expect(judged(striker(2, 1), entryOf(1))).toEqual({ stands: [2], struck: [1], aside: [] });
  });

  it('sets the members of a ring aside, whatever its length, and lets what they strike stand', () => {
    expect(judged(striker(1, 1), entryOf(9))).toEqual({ stands: [9], struck: [], aside: [1] });
    expect(judged(striker(1, 2), striker(2, 1, 3), entryOf(3))).toEqual({
      stands: [3],
      struck: [],
      aside: [1, 2],
    });
    expect(judged(striker(1, 2), striker(2, 3), striker(3, 1)).aside).toEqual([1, 2, 3]);
  });

  it('breaks a ring open where a standing entry strikes a member', () => {
    expect(judged(striker(1, 2), striker(2, 1), striker(3, 1))).toEqual({
      stands: [2, 3],
      struck: [1],
      aside: [],
    });
    // Two rings that share entry 1: struck, it leaves the other ring closed.
    expect(judged(striker(1, 2, 3), striker(2, 1), striker(3, 1, 4), striker(4, 3), striker(5, 1)))
      // 2 is freed; 3 and 4 still strike one another.
      .toEqual({ stands: [2, 5], struck: [1], aside: [3, 4] });
  });

  it('judges a ring that hangs on another ring by what is left of it', () => {
    // 1 and 2 are a ring; 2 strikes 3, which stands, and strikes 4 of the ring 4, 5.
    expect(
      judged(striker(1, 2), striker(2, 1, 3), striker(3, 4), striker(4, 5), striker(5, 4)),
    ).toEqual({ stands: [3, 5], struck: [4], aside: [1, 2] });
  });

  it('waits with a ring until all that strikes it from outside is judged', () => {
    const entries = [striker(0, 1), striker(1, 0, 2), striker(2, 3)]; // A ring; 2 stands and strikes 3.
    entries.push(striker(3, 4), striker(4, 5), striker(5, 4, 9, 3), striker(9, 3, 7)); // Struck 3 frees 4, 5.
    entries.push(striker(7, 8), striker(8, 7)); // Judged too early, these would be set aside.
    expect(judged(...entries)).toEqual({ stands: [2, 8, 9], struck: [3, 7], aside: [0, 1, 4, 5] });
  });

  it('agrees with the definition followed word by word on small books of many rings', () => {
    const graphs = fc.array(fc.array(fc.nat(11), { maxLength: 2 }), {
      minLength: 12,
      maxLength: 12,
    });
    fc.assert(
      fc.property(graphs, (targets) => {
        const entries = targets.map((list, n) =>
          list.length === 0 ? entryOf(n) : striker(n, ...list),
        );
        expect(judged(...entries)).toEqual(byDefinition(targets));
      }),
      { seed: 64, numRuns: 3000 },
    );
  });

  it('sets an id with two contents aside, lets it strike nothing, and says who struck it', () => {
    const [a, b] = [striker(1, 2), striker(1, 3)];
    const result = standing(bookOf([a, b, entryOf(2), entryOf(3), striker(4, 1)]));
    expect(result.standing.map((entry) => entry._id)).toEqual([idOf(2), idOf(3), idOf(4)]);
    expect(result.setAside).toEqual([
      { id: idOf(1), reason: 'two contents', contents: [a, b], by: [idOf(4)] },
    ]);
  });

  it('reports the rows that standing entries strike, and lets their entry stand', () => {
    const rows = (n: number, ...struck: readonly number[]): Entry =>
      entryOf(n, { strikes: struck.map((row) => ({ entry: idOf(1), row })) });
    const book = bookOf([entryOf(1), rows(2, 7, 3, 3), rows(3, 0), rows(4, 5), striker(5, 4)]);
    const result = standing(book);
    expect([...result.struckRows]).toEqual([[idOf(1), [0, 3, 7]]]);
    expect(result.standing).toContainEqual(entryOf(1));
    expect(standing(bookOf([rows(2, 7)])).struckRows.size).toBe(0);
  });

  it('takes no strike of a row for a ring', () => {
    const row = entryOf(1, { strikes: [{ entry: idOf(2), row: 1 }] });
    const back = entryOf(2, { strikes: [{ entry: idOf(1), row: 1 }] });
    expect(judged(row, back)).toEqual({ stands: [1, 2], struck: [], aside: [] });
  });

  it('puts every id in one place, and no standing entry is struck by another', () => {
    fc.assert(
      fc.property(anyBook, (book) => {
        const result = standing(book);
        const struckIds = result.struck.map(({ entry }) => entry._id);
        const stands = result.standing.map((entry) => entry._id);
        const asideIds = result.setAside.map(({ id }) => id);
        expect([...stands, ...struckIds, ...asideIds].sort()).toEqual(
          [...book.entries.keys(), ...book.conflicts.keys()].sort(),
        );
        const hit = new Set(
          result.standing.flatMap(({ strikes = [] }) =>
            strikes.filter((strike) => strike.row === undefined).map(({ entry }) => entry),
          ),
        );
        expect(stands.filter((id) => hit.has(id))).toEqual([]);
        expect(struckIds.filter((id) => !hit.has(id))).toEqual([]);
        for (const { id, reason, by } of result.setAside) {
          if (reason === 'cycle') expect(by, id).toEqual([]);
        }
      }),
      { seed: 61, numRuns: 1000 },
    );
  });

  it('sets aside as a ring only what can be followed back to itself', () => {
    fc.assert(
      fc.property(anyBook, (book) => {
        const aside = new Set(
          standing(book)
            .setAside.filter(({ reason }) => reason === 'cycle')
            .map(({ id }) => id),
        );
        const next = (id: string): readonly string[] =>
          (book.entries.get(id)?.strikes ?? [])
            .filter((strike) => strike.row === undefined && aside.has(strike.entry))
            .map(({ entry }) => entry);
        for (const id of aside) {
          const reached = new Set<string>();
          const open = [...next(id)];
          for (let at = open.pop(); at !== undefined; at = open.pop()) {
            if (reached.has(at)) continue;
            reached.add(at);
            open.push(...next(at));
          }
          expect(reached).toContain(id);
        }
      }),
      { seed: 62, numRuns: 1000 },
    );
  });

  it('does not depend on the order in which entries arrive', () => {
    const shuffled = anyEntries.chain((entries) =>
      fc.tuple(
        fc.constant(entries),
        fc.shuffledSubarray([...entries], { minLength: entries.length }),
        fc.nat(entries.length),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([entries, mixed, at]) => {
        const parts = union(bookOf(mixed.slice(at)), bookOf(mixed.slice(0, at)));
        expect(standing(parts)).toEqual(standing(bookOf(entries)));
      }),
      { seed: 63, numRuns: 300 },
    );
  });

  it('follows a chain of 10,000 strikes, and a ring of as many', () => {
    const chain = Array.from({ length: 10_000 }, (_, n) => striker(n, n + 1));
    const result = standing(bookOf(chain));
    expect([result.standing.length, result.struck.length]).toEqual([5_000, 5_000]);
    expect(result.standing[0]._id).toBe(idOf(0));
    const ring = standing(bookOf([...chain.slice(0, -1), striker(9_999, 0)]));
    expect(ring.setAside).toHaveLength(10_000);
  });

  it('gets through 3,000 entries that hostile hands tied into rings one behind the other', () => {
    // Each ring of two strikes an entry, which stands, and breaks the next ring open.
    const entries = Array.from({ length: 1_000 }, (_, ring) => [
      striker(3 * ring, 3 * ring + 1),
      striker(3 * ring + 1, 3 * ring, 3 * ring + 2),
      striker(3 * ring + 2, 3 * ring + 3),
    ]).flat();
    const result = standing(bookOf(entries));
    expect(result.standing.length + result.struck.length + result.setAside.length).toBe(3_000);
    expect(result.setAside.slice(0, 2).map(({ id }) => id)).toEqual([idOf(0), idOf(1)]);
  });
});
