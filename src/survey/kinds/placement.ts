import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { layingFields } from './layingFields.ts';
import { reference, typed, words } from './pieces.ts';

/** One laying of the edge on a line. To lay it again, or to find that it has moved, is a new placement. */
export const placementKind = defineKind({
  kind: 'placement',
  scope: 'survey',
  refers: ['sameAs', 'line', 'edge', 'gauge', 'support'],
  schema: v.looseObject({
    line: reference,
    ...layingFields,
    aftEnd: v.exactOptional(typed),
    aftMark: v.exactOptional(v.picklist(['A', 'B'], 'expected A or B')),
    /** When it was laid, where that was written down, ISO 8601 with a zone. */
    laid: v.exactOptional(words),
  }),
});
