import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, words } from './pieces.ts';

export const CHOICES = [
  'nothing',
  'move weight',
  'fill',
  'grind',
  'fill and grind',
  'refer to a surveyor',
] as const;
export type Choice = (typeof CHOICES)[number];

/** What the owner chose before any irreversible work, and who signed it. */
export const decisionKind = defineKind({
  kind: 'decision',
  scope: 'survey',
  refers: [],
  schema: v.looseObject({
    choice: v.picklist(CHOICES, `expected one of ${CHOICES.join(', ')}`),
    /** Who decided: the owner, or who acts for them. */
    by: words,
    date: v.exactOptional(words),
    signed: v.picklist(['on screen', 'on paper'], 'expected on screen or on paper'),
    /** Who accepts that a fairer bottom may make the complaint worse, where it may. */
    acceptsWorse: v.exactOptional(words),
    /** Who accepts that the work may not mend the complaint, where the measured bottom does not explain it. */
    acceptsUnexplained: v.exactOptional(words),
    notes: v.exactOptional(prose),
  }),
});
