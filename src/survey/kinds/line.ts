import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, sameAs, side, typedAboveZero, typedFromZero, words } from './pieces.ts';

/** A fore-and-aft line of a hull: side, and offset from the keel along the bottom. Where it follows a landmark
 *  ("inboard of the outer strake"), the offset is the one measured there. */
export const lineKind = defineKind({
  kind: 'line',
  scope: 'hull',
  refers: ['sameAs'],
  schema: v.looseObject({
    sameAs,
    side,
    offset: typedFromZero,
    landmark: v.exactOptional(words),
    name: v.exactOptional(words),
    /** How far forward this line is judged, where it differs from the survey's. */
    limit: v.exactOptional(typedAboveZero),
    notes: v.exactOptional(prose),
  }),
});
