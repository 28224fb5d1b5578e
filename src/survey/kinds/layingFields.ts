import * as v from 'valibot';

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

/** What is said of every laying of the edge, along a line or across lines. */
export const layingFields = {
  sameAs,
  name: words,
  repeat: counted,
  held,
  /** Height of the two equal blocks. */
  block: v.exactOptional(typedAboveZero),
  /** Height of the fore block, or of the outboard one across lines, where it is not that of the other. */
  blockFore: v.exactOptional(typedAboveZero),
  /** Where the blocks stand: stations, or across lines offsets from the keel. */
  blocksAt: v.exactOptional(v.strictTuple([typed, typed], 'expected two lengths')),
  edge: v.exactOptional(reference),
  /** Where no straightedge is named, or this one was not used at its whole length. */
  edgeLength: v.exactOptional(typedAboveZero),
  /** Which face was towards the hull. */
  face: v.exactOptional(face),
  gauge: v.exactOptional(reference),
  division: v.exactOptional(typedAboveZero),
  reads: v.exactOptional(reads),
  /** The support that the hull stood on. */
  support: v.exactOptional(reference),
  notes: v.exactOptional(prose),
} as const;
