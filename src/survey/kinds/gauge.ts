import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { counted, prose, reads, sameAs, typedAboveZero, typedFromZero, words } from './pieces.ts';

/** What a gap is read with: its division, how it speaks, and how its readings are typed. */
export const gaugeKind = defineKind({
  kind: 'gauge',
  scope: 'hull',
  refers: ['sameAs'],
  schema: v.looseObject({
    sameAs,
    name: words,
    division: v.exactOptional(typedAboveZero),
    reads: v.exactOptional(reads),
    /** How its readings are typed: the unit, and with `in` the denominator (5 typed is 5/32). */
    unit: v.exactOptional(v.picklist(['mm', 'in'], 'expected mm or in')),
    denominator: v.exactOptional(counted),
    /** Standard uncertainty of one reading, where somebody has stated it. */
    repeatability: v.exactOptional(typedFromZero),
    notes: v.exactOptional(prose),
  }),
});
