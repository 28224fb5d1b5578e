import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { layingFields } from './layingFields.ts';

/** One laying of the edge across the lines of one side, along the panel: at one station, or on the diagonal. Its
 *  readings say which line each is of. What a placement says of stations along the edge it says of offsets. */
export const placementAcrossKind = defineKind({
  kind: 'placement across',
  scope: 'survey',
  refers: ['sameAs', 'edge', 'gauge', 'support'],
  schema: v.looseObject({
    side: v.picklist(['port', 'starboard'], 'expected port or starboard'),
    direction: v.picklist(['athwart', 'diagonal'], 'expected athwart or diagonal'),
    ...layingFields,
  }),
});
