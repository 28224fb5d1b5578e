import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, sameAs, typed, typedFromZero } from './pieces.ts';

const FEATURES = ['strake', 'tab', 'tab pocket', 'through-hull', 'transducer', 'fitting'] as const;

/** Something on the bottom that an edge or a gauge cannot be used on, entered once for the hull.
 *  `side` both: the same on port and starboard. `centre`: astride the keel, offsets reach to either side. */
export const featureKind = defineKind({
  kind: 'feature',
  scope: 'hull',
  refers: ['sameAs'],
  schema: v.pipe(
    v.looseObject({
      sameAs,
      feature: v.picklist(FEATURES, `expected one of ${FEATURES.join(', ')}`),
      side: v.picklist(
        ['port', 'starboard', 'centre', 'both'],
        'expected port, starboard, centre or both',
      ),
      /** From the keel, along the bottom. */
      offsetFrom: typedFromZero,
      offsetTo: typedFromZero,
      /** Forward of the transom's bottom edge. */
      stationFrom: typed,
      stationTo: typed,
      note: v.exactOptional(prose),
    }),
    v.check(
      (body) => body.offsetFrom.mm <= body.offsetTo.mm && body.stationFrom.mm <= body.stationTo.mm,
      'expected ranges that run outward and forward',
    ),
  ),
});
