import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { MATERIALS } from '../survey.ts';
import { prose, sameAs, typedAboveZero, words } from './pieces.ts';

const SIZE = 'expected a number above 0';
const aboveZero = v.pipe(
  v.number(SIZE),
  v.finite(SIZE),
  v.check((size) => size > 0, SIZE),
);

/** What it sags by under its own weight: lengths in mm, weight in kg/m, stiffness E·I in N·m², pull in N. */
const sag = v.variant(
  'from',
  [
    v.looseObject({
      from: v.literal('section'),
      width: aboveZero,
      depth: aboveZero,
      wall: v.exactOptional(aboveZero),
      material: v.picklist(MATERIALS, `expected ${MATERIALS.join(' or ')}`),
    }),
    v.looseObject({ from: v.literal('stiffness'), weight: aboveZero, stiffness: aboveZero }),
    v.looseObject({ from: v.literal('measured'), sag: aboveZero, between: aboveZero }),
    v.looseObject({ from: v.literal('tension'), weight: aboveZero, tension: aboveZero }),
  ],
  'expected section, stiffness, measured or tension',
);

/** A straightedge of the yard: a bar, a taut string or a laser line. */
export const straightedgeKind = defineKind({
  kind: 'straightedge',
  scope: 'hull',
  refers: ['sameAs'],
  schema: v.looseObject({
    sameAs,
    name: words,
    length: v.exactOptional(typedAboveZero),
    type: v.exactOptional(
      v.picklist(['bar', 'taut string', 'laser line'], 'expected bar, taut string or laser line'),
    ),
    /** What it may be out by: a bow of at most `size` over `over`, either way. */
    bound: v.exactOptional(
      v.looseObject({ size: typedAboveZero, over: typedAboveZero }, 'expected a size and a length'),
    ),
    sag: v.exactOptional(sag),
    /** Whether its ends are marked A and B. */
    endsMarked: v.exactOptional(v.boolean('expected true or false')),
    /** Which of its faces is marked as the working one, in words. */
    markedFace: v.exactOptional(words),
    notes: v.exactOptional(prose),
  }),
});
