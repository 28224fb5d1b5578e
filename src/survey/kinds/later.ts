import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { extra, prose, reference, typed } from './pieces.ts';

/** A station put off, and why: a stand in the way. It is neither void nor read. */
export const laterKind = defineKind({
  kind: 'later',
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
