import * as v from 'valibot';

import { massFigure, placeFigure } from './figurePieces.ts';
import { defineKind } from './kind.ts';
import { prose, reference, sameAs, words } from './pieces.ts';

export const WEIGHT_ACTS = ['aboard', 'removed', 'added', 'moved'] as const;

/** Its centre of gravity: forward of the transom's bottom edge, and above the keel at the transom. */
const place = v.exactOptional(
  v.looseObject(
    { x: v.exactOptional(placeFigure), height: v.exactOptional(placeFigure) },
    'expected a place',
  ),
);

/** Something that weighs, aboard or changed. A name is enough to begin: mass and place may be found later. */
export const weightItemKind = defineKind({
  kind: 'weight item',
  scope: 'hull',
  refers: ['sameAs', 'thing'],
  schema: v.looseObject({
    sameAs,
    name: words,
    act: v.picklist(WEIGHT_ACTS, 'expected aboard, removed, added or moved'),
    /** From which state on a change counts; absent: as now. */
    since: v.exactOptional(v.picklist(['as now', 'as proposed'], 'expected as now or as proposed')),
    /** Of the boat itself, weighed after the changes of now: those are in its figure. */
    weighed: v.exactOptional(v.literal('as now', 'expected as now')),
    mass: v.exactOptional(massFigure),
    /** The item of the list that was removed or moved: its mass holds, and its doubt counts once. */
    thing: v.exactOptional(reference),
    at: place,
    from: place,
    to: place,
    /** True where the mass is from the list of typical items: common practice, not weighed. */
    typical: v.exactOptional(v.boolean('expected true or false')),
    note: v.exactOptional(prose),
  }),
});
