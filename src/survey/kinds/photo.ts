import * as v from 'valibot';

import { PLAIN_NAME_LIMIT } from '../photo/plainFileName.ts';
import { defineKind } from './kind.ts';
import { counted, prose, reference, sameAs, typed, words } from './pieces.ts';

/** What a kept picture is called beside its entry. The original's own name is somebody else's text. */
export const KEPT_PHOTO = 'photo.jpg';

const PIXELS = 'expected a whole number of pixels from 1 to 20000';
const pixels = v.pipe(
  v.number(PIXELS),
  v.safeInteger(PIXELS),
  v.minValue(1, PIXELS),
  v.maxValue(20_000, PIXELS),
);

/** A picture of the survey or of the hull, scaled down. The picture itself is the attachment named `kept.name` of the
 *  entry that first stated it; a correction says the rest anew and brings no picture. */
export const photoKind = defineKind({
  kind: 'photo',
  scope: 'either',
  refers: ['sameAs', 'line'],
  schema: v.looseObject({
    sameAs,
    caption: v.exactOptional(prose),
    /** The line and the station that it shows. */
    line: v.exactOptional(reference),
    station: v.exactOptional(typed),
    kept: v.looseObject({
      /** The attachment's. */
      name: words,
      type: v.picklist(
        ['image/jpeg', 'image/png', 'image/webp'],
        'expected image/jpeg, image/png or image/webp',
      ),
      bytes: counted,
      sha256: v.pipe(
        v.string('expected a SHA-256'),
        v.regex(/^[0-9a-f]{64}$/, 'expected a SHA-256'),
      ),
      width: pixels,
      height: pixels,
    }),
    /** The file that it was made from, which is not kept. */
    original: v.exactOptional(
      v.looseObject({
        name: v.exactOptional(
          v.pipe(
            words,
            v.maxLength(PLAIN_NAME_LIMIT, `expected at most ${PLAIN_NAME_LIMIT} characters`),
          ),
        ),
        type: words,
        bytes: counted,
        width: pixels,
        height: pixels,
      }),
    ),
  }),
});
