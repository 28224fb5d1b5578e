import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { extra, prose, reference, typed } from './pieces.ts';

/** A station that cannot be read, and why: a strake, a fitting, a through-hull, a tab pocket. */
export const voidKind = defineKind({
  kind: 'void',
  scope: 'survey',
  refers: ['placement', 'line'],
  schema: v.looseObject({
    placement: reference,
    /** The line that it is of, where the placement lies across lines. */
    line: v.exactOptional(reference),
    station: typed,
    reason: prose,
    note: v.exactOptional(prose),
    extra,
  }),
});
