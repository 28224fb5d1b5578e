import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { reference } from './pieces.ts';

/** A free remark on the hull, on a survey, or on the thing that `about` names. */
export const noteKind = defineKind({
  kind: 'note',
  scope: 'either',
  refers: ['about'],
  schema: v.looseObject({
    text: v.pipe(
      v.string('expected text'),
      v.minLength(1, 'expected at least one character'),
      v.maxLength(20_000, 'expected at most 20,000 characters'),
    ),
    about: v.exactOptional(reference),
  }),
});
