import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, words } from './pieces.ts';

/** Two sea trials of a survey by their names, one before and one after a change that is named. */
export const trialPairKind = defineKind({
  kind: 'trial pair',
  scope: 'survey',
  refers: [],
  schema: v.looseObject({
    before: words,
    after: words,
    /** What was changed between the two. */
    change: words,
    notes: v.exactOptional(prose),
  }),
});
