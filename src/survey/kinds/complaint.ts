import * as v from 'valibot';

import { speedFigure } from './figurePieces.ts';
import { defineKind } from './kind.ts';
import { prose, words } from './pieces.ts';

/** What a boat may be said to do. */
export const COMPLAINTS = [
  'porpoises',
  'ploughs',
  'slow to plane',
  'lists',
  'pulls',
  'ventilates',
] as const;
export type Complaint = (typeof COMPLAINTS)[number];

/** What may have been changed lately. */
export const CHANGES = [
  'engines',
  'bracket',
  'batteries',
  'tanks',
  'propeller',
  'tabs',
  'repairs',
] as const;
export type Change = (typeof CHANGES)[number];

/** What the boat does that brought it here: of the words above, all that apply; none is an answer too. */
export const complaintKind = defineKind({
  kind: 'complaint',
  scope: 'survey',
  refers: [],
  schema: v.looseObject({
    does: v.array(v.picklist(COMPLAINTS, `expected any of ${COMPLAINTS.join(', ')}`)),
    changed: v.exactOptional(v.array(v.picklist(CHANGES, `expected any of ${CHANGES.join(', ')}`))),
    /** As it was told: from and up to what speed, how the drive and the tabs were set, the load. */
    from: v.exactOptional(speedFigure),
    upTo: v.exactOptional(speedFigure),
    driveTrim: v.exactOptional(words),
    tabs: v.exactOptional(words),
    load: v.exactOptional(words),
    /** What exactly was changed, and when. */
    changedHow: v.exactOptional(prose),
    /** In the person's words. */
    said: v.exactOptional(prose),
  }),
});
