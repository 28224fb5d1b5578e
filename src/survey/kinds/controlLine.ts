import * as v from 'valibot';

import { surveyPair } from './acceptance.ts';
import { defineKind } from './kind.ts';
import { reference, words } from './pieces.ts';

/** A line that nobody worked on between two surveys, named by somebody who knows: it tells a changed set-up from a
 *  changed hull. */
export const controlLineKind = defineKind({
  kind: 'control line',
  scope: 'hull',
  refers: ['line'],
  schema: v.looseObject({
    line: reference,
    surveys: surveyPair,
    /** Why it is known to be untouched. */
    reason: v.exactOptional(words),
  }),
});
