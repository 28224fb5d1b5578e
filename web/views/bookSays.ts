import type { Standing } from '../../src/book/standing.ts';
import { bookNames } from '../../src/survey/bookWords/bookNames.ts';
import { struckWords } from '../../src/survey/bookWords/entryWords.ts';
import type { Statement } from '../../src/survey/fold/amendmentsOf.ts';

/** A statement as a stranger can read it. */
export type Says = (statement: Statement) => string;

/** Statements of a hull in the words of its field book, standing or struck. */
export function bookSays({ standing, struck }: Standing): Says {
  const ids = new Set(standing.map(({ _id }) => _id));
  const all = [...standing, ...struck.map(({ entry }) => entry)];
  const names = bookNames(all, (id) => ids.has(id));
  return ({ entry, row }) =>
    struckWords([{ entry: entry._id, ...(row !== undefined && { row }) }], names).join('; ');
}
