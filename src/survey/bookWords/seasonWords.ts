import { listed } from '../sentence.ts';
import type { BookNames } from './bookNames.ts';
import { sentenceOf, type Wording } from './wording.ts';

export const acceptanceWords: Wording<'acceptance'> = {
  group: 'seasons',
  words: (body, { names }) =>
    sentenceOf(
      `Accepted, a difference of ${body.what} between ${both(body.surveys, names)}`,
      [body.differs],
      body.reason,
    ),
};

export const controlLineWords: Wording<'control line'> = {
  group: 'seasons',
  words: (body, { names }) =>
    sentenceOf(
      `Control line ${names.line(body.line)}, untouched between ${both(body.surveys, names)}`,
      [],
      body.reason,
    ),
};

function both(surveys: readonly string[], names: BookNames): string {
  return listed(surveys.map((key) => names.survey(key)));
}
