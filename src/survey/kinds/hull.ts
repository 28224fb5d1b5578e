import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, typedAboveZero, words } from './pieces.ts';

const YEAR = 'expected a year from 1850 to 2200';
const DEADRISE = 'expected degrees from 0 to 90, and the text as typed';

/** The longest that a hull may be left between two checks, months. */
export const CHECK_MONTHS_MOST = 120;
const MONTHS = `expected whole months from 1 to ${CHECK_MONTHS_MOST}`;

/** Who and what a hull is. A name is enough to begin. A correction is a new `hull` that strikes the former. */
export const hullKind = defineKind({
  kind: 'hull',
  scope: 'hull',
  refers: [],
  schema: v.looseObject({
    name: words,
    builder: v.exactOptional(words),
    /** Hull identification number, as written on the transom. */
    hin: v.exactOptional(words),
    year: v.exactOptional(
      v.pipe(v.number(YEAR), v.safeInteger(YEAR), v.minValue(1850, YEAR), v.maxValue(2200, YEAR)),
    ),
    length: v.exactOptional(typedAboveZero),
    beamAtChine: v.exactOptional(typedAboveZero),
    deadrise: v.exactOptional(
      v.looseObject(
        {
          degrees: v.pipe(v.number(DEADRISE), v.minValue(0, DEADRISE), v.maxValue(90, DEADRISE)),
          text: v.string(DEADRISE),
        },
        DEADRISE,
      ),
    ),
    propulsion: v.exactOptional(prose),
    notes: v.exactOptional(prose),
    /** Months from a survey to the next check of this hull; absent where the yard's own interval holds. */
    checkEvery: v.exactOptional(
      v.pipe(
        v.number(MONTHS),
        v.safeInteger(MONTHS),
        v.minValue(1, MONTHS),
        v.maxValue(CHECK_MONTHS_MOST, MONTHS),
      ),
    ),
    /** True for the demo: no such boat exists. */
    invented: v.exactOptional(v.boolean('expected true or false')),
  }),
});
