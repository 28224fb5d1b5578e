import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, words } from './pieces.ts';

/** What was found at a gate before any irreversible work. A gate that nobody has looked at has no entry: it is not
 *  checked, which is never a no. `gate` names it (src/fairing/gates.ts); of one name, the last standing holds. */
export const gateKind = defineKind({
  kind: 'gate',
  scope: 'survey',
  refers: [],
  schema: v.looseObject({
    gate: words,
    answer: v.picklist(['yes', 'no'], 'expected yes or no'),
    /** Who looked, where that is not who wrote it down. */
    by: v.exactOptional(words),
    notes: v.exactOptional(prose),
  }),
});
