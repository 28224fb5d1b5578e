import { type Book, bookOf, entriesOf } from './book.ts';

/** Two books as one: every entry of either, once. The same id with the same content is one entry; with two contents
 *  it is a conflict that keeps both. Commutative, associative and idempotent, conflicts included
 *  (test/book/union.test.ts), so that it does not matter which device hears of what first, or how often. */
export function union(a: Book, b: Book): Book {
  return bookOf([...entriesOf(a), ...entriesOf(b)]);
}
