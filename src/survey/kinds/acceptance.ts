import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, words } from './pieces.ts';

/** The keys of two surveys of the hull, in no order. */
export const surveyPair = v.pipe(
  v.array(words, 'expected the keys of two surveys'),
  v.length(2, 'expected the keys of two surveys'),
);

/** Somebody accepts knowingly that two surveys are compared although something in them differs. It holds as long as
 *  they differ in just that: `differs` says in words in what, as it stood when it was accepted. */
export const acceptanceKind = defineKind({
  kind: 'acceptance',
  scope: 'hull',
  refers: [],
  schema: v.looseObject({
    surveys: surveyPair,
    /** What differs: "support", "edge", "repair" and so on (src/seasons/unlike.ts). */
    what: words,
    differs: prose,
    reason: words,
  }),
});
