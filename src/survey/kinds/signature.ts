import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { reference, words } from './pieces.ts';

/** Who may sign a survey, and for what. */
export const SIGNED_AS = ['measured', 'checked'] as const;

/** A field to sign in is a fourth as tall as it is wide. */
export const SIGNATURE_TALL = 1 / 4;

const PLACE = 'expected a place in parts of the field’s width, from 0 to 1';
const place = v.pipe(v.number(PLACE), v.finite(PLACE), v.minValue(0, PLACE), v.maxValue(1, PLACE));

/** A person puts their name to a survey as it stood. It binds by `digest`: what is entered afterwards is told apart
 *  from what was signed. */
export const signatureKind = defineKind({
  kind: 'signature',
  scope: 'survey',
  refers: ['entries'],
  schema: v.looseObject({
    /** `measured`: took the readings; `checked`: looked over the record. */
    role: v.picklist(SIGNED_AS, 'expected measured or checked'),
    name: words,
    /** As drawn: of each stroke, x and y in turn, in parts of the field's width; y runs down. Absent where the name
     *  was typed in its place. */
    strokes: v.exactOptional(
      v.pipe(
        v.array(
          v.pipe(
            v.array(place, 'expected a list of places'),
            v.check((stroke) => stroke.length % 2 === 0, 'expected x and y in turn'),
            v.maxLength(4000, 'expected at most 2,000 points'),
          ),
          'expected a list of strokes',
        ),
        v.minLength(1, 'expected at least one stroke'),
        v.maxLength(200, 'expected at most 200 strokes'),
      ),
    ),
    /** Everything that was signed: ids of the entries that stood, ascending. */
    entries: v.array(reference, 'expected a list of ids'),
    /** Rows of imports that were struck by then, as `<id>#<row>`. */
    rows: v.exactOptional(v.array(words, 'expected a list of rows')),
    /** SHA-256 of what those entries say, in hexadecimal (src/survey/signedDigest.ts). */
    digest: v.pipe(v.string('expected text'), v.regex(/^[0-9a-f]{64}$/, 'expected a SHA-256')),
  }),
});
