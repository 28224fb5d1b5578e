import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { bookOf, entriesOf } from '../../src/book/book.ts';
import { union } from '../../src/book/union.ts';
import { anyBook, anyEntries, entryOf, idOf } from './samples.ts';

/** Everything about a book, the order within it too. */
const whole = (book: ReturnType<typeof bookOf>): unknown => [
  [...book.entries],
  [...book.conflicts],
];

describe('union', () => {
  it('is commutative, conflicts included', () => {
    fc.assert(
      fc.property(anyBook, anyBook, (a, b) => {
        expect(whole(union(a, b))).toEqual(whole(union(b, a)));
      }),
      { seed: 51, numRuns: 300 },
    );
  });

  it('is associative, conflicts included', () => {
    fc.assert(
      fc.property(anyBook, anyBook, anyBook, (a, b, c) => {
        expect(whole(union(union(a, b), c))).toEqual(whole(union(a, union(b, c))));
      }),
      { seed: 52, numRuns: 300 },
    );
  });

  it('is idempotent, and the empty book adds nothing', () => {
    fc.assert(
      fc.property(anyBook, anyBook, (a, b) => {
        const both = union(a, b);
        expect(whole(union(both, b))).toEqual(whole(both));
        expect(whole(union(a, a))).toEqual(whole(a));
        expect(whole(union(a, bookOf([])))).toEqual(whole(a));
      }),
      { seed: 53, numRuns: 300 },
    );
  });

  it('loses no content of either', () => {
    fc.assert(
      fc.property(anyEntries, anyEntries, (a, b) => {
        const kept = entriesOf(union(bookOf(a), bookOf(b)));
        for (const entry of [...a, ...b]) expect(kept).toContainEqual(entry);
      }),
      { seed: 54 },
    );
  });

  it('takes the same id with the same content, members in another order, for one entry', () => {
    const entry = entryOf(1);
    const turned = Object.fromEntries(Object.entries(entry).reverse()) as typeof entry & object;
    const both = union(bookOf([entry]), bookOf([turned]));
    expect([both.entries.size, both.conflicts.size]).toEqual([1, 0]);
  });

  it('sets the same id with two contents aside and keeps both', () => {
    const [a, b] = [entryOf(1, { body: { gap: 0 } }), entryOf(1, { body: {} })];
    const both = union(bookOf([a, entryOf(2)]), bookOf([b]));
    expect([...both.entries.keys()]).toEqual([idOf(2)]);
    expect(both.conflicts.get(idOf(1))).toHaveLength(2);
    expect(both.conflicts.get(idOf(1))).toEqual(expect.arrayContaining([a, b]));
  });
});
