import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { counted, prose, typed, typedAboveZero, typedFromZero, words } from './pieces.ts';

export const VENTED = ['vented', 'not vented'] as const;

export const FOUND = ['ruled out', 'contributes', 'is the cause'] as const;
export type Found = (typeof FOUND)[number];

/** What was found of another cause of how the boat runs, by a test that can be undone; without `found` it was measured and
 *  not decided. One without an entry, or undecided, is not checked. */
export const causeKind = defineKind({
  kind: 'cause',
  scope: 'survey',
  refers: [],
  schema: v.looseObject({
    cause: words,
    found: v.exactOptional(v.picklist(FOUND, `expected one of ${FOUND.join(', ')}`)),
    /** Who tried it, where that is not who wrote it down. */
    by: v.exactOptional(words),
    /** When it was tried, where that is not when it was written down. */
    date: v.exactOptional(words),
    /** How it was tried, and what the boat then did. */
    how: v.exactOptional(prose),
    /** Of drive trim: where the limit pin sits. */
    pin: v.exactOptional(words),
    /** Of engine height: setback from the transom to the engine's mount, and the anti-ventilation plate above the bottom
     *  carried straight aft (below it negative). */
    engine: v.exactOptional(
      v.looseObject({
        setback: v.exactOptional(typedFromZero),
        plate: v.exactOptional(typed),
      }),
    ),
    /** Of bracket height: its underside above the bottom carried straight aft (below it negative). */
    bracket: v.exactOptional(v.looseObject({ underside: v.exactOptional(typed) })),
    /** Of tab pockets: how many alike; size of one fore and aft, athwart, and up into the hull; how far its top lies below
     *  the waterline at rest (above it negative); whether air can get in. */
    pocket: v.exactOptional(
      v.looseObject({
        count: v.exactOptional(counted),
        length: v.exactOptional(typedAboveZero),
        width: v.exactOptional(typedAboveZero),
        depth: v.exactOptional(typedAboveZero),
        below: v.exactOptional(typed),
        vented: v.exactOptional(v.picklist(VENTED, `expected ${VENTED.join(' or ')}`)),
      }),
    ),
  }),
});
