import * as v from 'valibot';

import { defineKind } from './kind.ts';
import {
  counted,
  face,
  held,
  prose,
  reads,
  reference,
  sameAs,
  typed,
  typedAboveZero,
  words,
} from './pieces.ts';

/** One laying of the edge across the lines of one side, along the panel: at one station, or on the diagonal. Its
 *  readings say which line each is of. What a placement says of stations along the edge it says of offsets. */
export const placementAcrossKind = defineKind({
  kind: 'placement across',
  scope: 'survey',
  refers: ['sameAs', 'edge', 'gauge', 'support'],
  schema: v.looseObject({
    sameAs,
    side: v.picklist(['port', 'starboard'], 'expected port or starboard'),
    direction: v.picklist(['athwart', 'diagonal'], 'expected athwart or diagonal'),
    name: words,
    repeat: counted,
    held,
    /** Height of the two equal blocks. */
    block: v.exactOptional(typedAboveZero),
    /** Height of the outboard block, where it is not that of the inboard one. */
    blockFore: v.exactOptional(typedAboveZero),
    /** Offsets of the blocks from the keel. */
    blocksAt: v.exactOptional(v.strictTuple([typed, typed], 'expected two lengths')),
    edge: v.exactOptional(reference),
    edgeLength: v.exactOptional(typedAboveZero),
    /** Which face was towards the hull. */
    face: v.exactOptional(face),
    gauge: v.exactOptional(reference),
    division: v.exactOptional(typedAboveZero),
    reads: v.exactOptional(reads),
    /** The support that the hull stood on. */
    support: v.exactOptional(reference),
    notes: v.exactOptional(prose),
  }),
});
