import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, words } from './pieces.ts';

/** What was found of another cause of how the boat runs, by a test that can be undone. One that nobody has tried has
 *  no entry: it is not checked. */
export const causeKind = defineKind({
  kind: 'cause',
  scope: 'survey',
  refers: [],
  schema: v.looseObject({
    cause: words,
    found: v.picklist(
      ['ruled out', 'contributes', 'is the cause'],
      'expected ruled out, contributes or is the cause',
    ),
    /** Who tried it, where that is not who wrote it down. */
    by: v.exactOptional(words),
    /** How it was tried, and what the boat then did. */
    how: v.exactOptional(prose),
  }),
});
