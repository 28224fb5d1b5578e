import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, sameAs, typedAboveZero, words } from './pieces.ts';

/** A straightedge of the yard: a bar, a taut string or a laser line. */
export const straightedgeKind = defineKind({
  kind: 'straightedge',
  scope: 'hull',
  refers: ['sameAs'],
  schema: v.looseObject({
    sameAs,
    name: words,
    length: v.exactOptional(typedAboveZero),
    type: v.exactOptional(
      v.picklist(['bar', 'taut string', 'laser line'], 'expected bar, taut string or laser line'),
    ),
    /** Whether its ends are marked A and B. */
    endsMarked: v.exactOptional(v.boolean('expected true or false')),
    /** Which of its faces is marked as the working one, in words. */
    markedFace: v.exactOptional(words),
    notes: v.exactOptional(prose),
  }),
});
