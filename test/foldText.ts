import { entriesOf, type Book } from '../src/book/book.ts';
import { canonical } from '../src/book/canonical.ts';
import { standing } from '../src/book/standing.ts';
import { hullOf } from '../src/survey/fold/hullOf.ts';
import { surveyOf } from '../src/survey/fold/surveyOf.ts';

/** What stands of a book and what it says of a survey, in one text: two devices have the same record where it is the same. */
export function foldText(book: Book, survey: string): string {
  const { standing: standers, struck, setAside, struckRows } = standing(book);
  const told = {
    entries: entriesOf(book).length,
    struck: struck.map(({ entry, by }) => [entry._id, by]),
    setAside: setAside.map(({ id, reason }) => [id, reason]),
    hull: hullOf(standers),
    survey: surveyOf(standers, struckRows, survey),
  };
  return canonical(JSON.parse(JSON.stringify(told)));
}
