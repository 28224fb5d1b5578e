import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, reference, sameAs, words } from './pieces.ts';

/** Work done on the bottom, on a day: readings before and after it are of two different bottoms. */
export const repairKind = defineKind({
  kind: 'repair',
  scope: 'hull',
  refers: ['sameAs', 'lines', 'sheet'],
  schema: v.looseObject({
    sameAs,
    /** The day it was finished, as 2026-03-14. */
    date: words,
    what: prose,
    /** The lines that were worked; without them, any may have been. */
    lines: v.exactOptional(v.array(reference, 'expected a list of lines')),
    /** The worksheet it was done to. */
    sheet: v.exactOptional(reference),
    by: v.exactOptional(words),
    inspector: v.exactOptional(words),
    passes: v.exactOptional(
      v.array(
        v.looseObject({
          product: v.exactOptional(words),
          batch: v.exactOptional(words),
          celsius: v.exactOptional(
            v.pipe(v.number('expected degrees'), v.finite('expected degrees')),
          ),
          cureStart: v.exactOptional(words),
          cureEnd: v.exactOptional(words),
        }),
        'expected a list of passes',
      ),
    ),
    notes: v.exactOptional(prose),
  }),
});
