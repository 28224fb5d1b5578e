import * as v from 'valibot';

import { defineKind } from './kind.ts';
import {
  counted,
  prose,
  reference,
  typed,
  typedAboveZero,
  typedFromZero,
  words,
} from './pieces.ts';

/** How a bottom is brought to its target. */
export const WAYS = ['fill only', 'grind only', 'least work'] as const;
export type Way = (typeof WAYS)[number];

/** A worksheet that left the tool, as it was issued: its number, what it was asked to be, and every figure on it, so
 *  that work and re-measuring can be held against the paper for as long as it hangs there. `remainderOf`: the sheet
 *  whose rest it holds. */
export const sheetKind = defineKind({
  kind: 'sheet',
  scope: 'survey',
  refers: ['replaces', 'remainderOf'],
  schema: v.looseObject({
    /** Of this survey, from 1. */
    number: counted,
    date: v.exactOptional(words),
    replaces: v.exactOptional(reference),
    remainderOf: v.exactOptional(reference),
    way: v.picklist(WAYS, 'expected fill only, grind only or least work'),
    grindLimit: v.exactOptional(typedAboveZero),
    fillLimit: v.exactOptional(typedAboveZero),
    forward: v.exactOptional(typedAboveZero),
    camber: v.exactOptional(
      v.looseObject({
        shape: v.picklist(['convex', 'concave'], 'expected convex or concave'),
        height: typedAboveZero,
      }),
    ),
    alike: v.exactOptional(v.boolean('expected true or false')),
    /** What whole panels were brought to: "one plane", "straight buttocks"; absent: line by line. */
    panel: v.exactOptional(words),
    /** What the depths are rounded to. */
    step: typedAboveZero,
    figures: v.array(
      v.looseObject({
        /** The line's id and its name as printed. */
        line: reference,
        name: words,
        station: typed,
        fill: typedFromZero,
        grind: typedFromZero,
      }),
      'expected a list of figures',
    ),
    notes: v.exactOptional(prose),
  }),
});
