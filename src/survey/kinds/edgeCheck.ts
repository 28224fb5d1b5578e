import * as v from 'valibot';

import { defineKind } from './kind.ts';
import {
  face,
  prose,
  reference,
  sameAs,
  typed,
  typedAboveZero,
  typedFromZero,
  words,
} from './pieces.ts';

const gap = v.exactOptional(typedFromZero);

/** A check of a straightedge that shows a bow: a line scribed along it and again with the edge turned over about the
 *  line, or three edges face to face in pairs, their ends A together. End for end is none and cannot be stated. */
export const edgeCheckKind = defineKind({
  kind: 'edge check',
  scope: 'hull',
  refers: ['sameAs', 'edge', 'second', 'third'],
  schema: v.pipe(
    v.looseObject({
      sameAs,
      edge: reference,
      method: v.picklist(
        ['reversal', 'three edges'],
        'expected reversal or three edges: end for end shows no bow',
      ),
      /** The other two edges, which the same figures tell of; absent where they are none of the yard's. */
      second: v.exactOptional(reference),
      third: v.exactOptional(reference),
      date: v.exactOptional(words),
      /** Which face was checked; the marked one where nobody says. */
      face: v.exactOptional(face),
      readTo: typedAboveZero,
      points: v.pipe(
        v.array(
          v.looseObject({
            /** From end A. */
            at: typedFromZero,
            /** Of the two lines; above 0 where the first lies farther from where the edge lay when it was drawn. */
            apart: v.exactOptional(typed),
            withSecond: gap,
            secondWithThird: gap,
            withThird: gap,
          }),
          'expected a list of points',
        ),
        v.maxLength(1000, 'expected at most 1,000 points'),
      ),
      notes: v.exactOptional(prose),
    }),
    v.check(
      ({ method, points }) =>
        points.every(({ apart, withSecond, secondWithThird, withThird }) =>
          method === 'reversal'
            ? apart !== undefined
            : withSecond !== undefined && secondWithThird !== undefined && withThird !== undefined,
        ),
      'expected at every point what the method reads there',
    ),
  ),
});
