import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { counted, extra, prose, reads, reference, typed, typedAboveZero, words } from './pieces.ts';

const WEIGHT = 'expected a weight above 0';

/** One gap at one station of a placement. 0 is contact; a gap that was not read is no entry.
 *  Fix: a new reading that strikes this one. Look again: a new reading with the next `look`; both stand. */
export const readingKind = defineKind({
  kind: 'reading',
  scope: 'survey',
  refers: ['placement', 'line', 'gauge'],
  schema: v.looseObject({
    placement: reference,
    /** The line that it is of, where the placement lies across lines. */
    line: v.exactOptional(reference),
    station: typed,
    gap: typed,
    /** The unit that the text was typed in, such as `1/32 in`. */
    unit: v.exactOptional(words),
    look: counted,
    /** Where another gauge was taken than the placement's. */
    gauge: v.exactOptional(reference),
    division: v.exactOptional(typedAboveZero),
    reads: v.exactOptional(reads),
    /** How many raw readings of a log were averaged. */
    weight: v.exactOptional(
      v.pipe(
        v.number(WEIGHT),
        v.finite(WEIGHT),
        v.check((weight) => weight > 0, WEIGHT),
      ),
    ),
    note: v.exactOptional(prose),
    extra,
  }),
});
