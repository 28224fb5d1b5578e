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

/** One laying of the edge on a line. To lay it again, or to find that it has moved, is a new placement. */
export const placementKind = defineKind({
  kind: 'placement',
  scope: 'survey',
  refers: ['sameAs', 'line', 'edge', 'gauge', 'support'],
  schema: v.looseObject({
    sameAs,
    line: reference,
    name: words,
    repeat: counted,
    held,
    /** Height of the two equal blocks. */
    block: v.exactOptional(typedAboveZero),
    /** Height of the fore block, where it is not that of the aft one. */
    blockFore: v.exactOptional(typedAboveZero),
    blocksAt: v.exactOptional(v.strictTuple([typed, typed], 'expected two lengths')),
    edge: v.exactOptional(reference),
    /** Where no straightedge is named, or this one was not used at its whole length. */
    edgeLength: v.exactOptional(typedAboveZero),
    aftEnd: v.exactOptional(typed),
    aftMark: v.exactOptional(v.picklist(['A', 'B'], 'expected A or B')),
    /** Which face was towards the hull. */
    face: v.exactOptional(face),
    gauge: v.exactOptional(reference),
    division: v.exactOptional(typedAboveZero),
    reads: v.exactOptional(reads),
    /** The support that the hull stood on. */
    support: v.exactOptional(reference),
    /** When it was laid, where that was written down, ISO 8601 with a zone. */
    laid: v.exactOptional(words),
    notes: v.exactOptional(prose),
  }),
});
