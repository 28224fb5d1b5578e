import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose } from './pieces.ts';

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
    /** At what speed and trim, and what changed lately, in the person's words. */
    said: v.exactOptional(prose),
  }),
});
