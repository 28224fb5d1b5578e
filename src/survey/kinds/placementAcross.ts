import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { layingFields } from './layingFields.ts';
import { reference, typed } from './pieces.ts';

const CROSSES = 'expected lines with their stations';

/** One laying of the edge across the lines of one side, along the panel, or of both where the bottom is flat across the
 *  keel: at one station, or on the diagonal. Its readings say which line each is of. What a placement says of stations
 *  along the edge it says of offsets; right across the keel those to port are below 0. */
export const placementAcrossKind = defineKind({
  kind: 'placement across',
  scope: 'survey',
  refers: ['sameAs', 'edge', 'gauge', 'support'],
  schema: v.looseObject({
    side: v.picklist(['port', 'starboard', 'both'], 'expected port, starboard or both'),
    direction: v.picklist(['athwart', 'diagonal'], 'expected athwart or diagonal'),
    ...layingFields,
    /** The lines that it was laid to cross, and the station at which it meets each: a plan, as what was read, void or
     *  put off says its line and station itself. */
    crosses: v.exactOptional(
      v.pipe(
        v.array(v.looseObject({ line: reference, station: typed }, CROSSES), CROSSES),
        v.maxLength(200, 'expected at most 200 lines'),
      ),
    ),
  }),
});
