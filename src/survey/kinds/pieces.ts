import * as v from 'valibot';

import type { Typed } from '../survey.ts';

/** Pieces that the bodies of entries are made of. Each message completes "<field>: …". */

const LENGTH = 'expected a length: mm as a finite number, and the text as typed';

/** A length as a person wrote it: mm and the text as typed. */
export const typed: v.GenericSchema<unknown, Typed> = v.looseObject(
  {
    mm: v.pipe(v.number(LENGTH), v.finite(LENGTH)),
    text: v.pipe(v.string(LENGTH), v.maxLength(200, 'expected at most 200 characters')),
  },
  LENGTH,
);

/** A length above 0. */
export const typedAboveZero = v.pipe(
  typed,
  v.check((length) => length.mm > 0, 'expected a length above 0'),
);

/** A length of 0 or more. */
export const typedFromZero = v.pipe(
  typed,
  v.check((length) => length.mm >= 0, 'expected a length of 0 or more'),
);

const SPEED = 'expected a speed above 0: m/s, and the text as typed';

/** A speed as a person wrote it: m/s and the text as typed, with its unit. */
export const typedSpeed = v.looseObject(
  {
    mps: v.pipe(
      v.number(SPEED),
      v.finite(SPEED),
      v.check((speed) => speed > 0, SPEED),
    ),
    text: v.pipe(v.string(SPEED), v.maxLength(200, 'expected at most 200 characters')),
  },
  SPEED,
);

/** A name or a few words: 1 to 500 characters. */
export const words = v.pipe(
  v.string('expected text'),
  v.minLength(1, 'expected at least one character'),
  v.maxLength(500, 'expected at most 500 characters'),
);

/** Text that may be long, or empty. */
export const prose = v.pipe(
  v.string('expected text'),
  v.maxLength(20_000, 'expected at most 20,000 characters'),
);

/** The id of another entry. */
export const reference = v.pipe(
  v.string('expected the id of an entry'),
  v.minLength(1, 'expected the id of an entry'),
);

/** A count that starts from 1. */
export const counted = v.pipe(
  v.number('expected a whole number from 1'),
  v.safeInteger('expected a whole number from 1'),
  v.minValue(1, 'expected a whole number from 1'),
);

/** On an entry that puts another right: the id of the entry that first stated the thing. References hold that id,
 *  so that they outlive every correction. Absent on the first. */
export const sameAs = v.exactOptional(reference);

export const side = v.picklist(
  ['port', 'starboard', 'centre'],
  'expected port, starboard or centre',
);

export const reads = v.picklist(
  ['nearest mark', 'last leaf'],
  'expected nearest mark or last leaf',
);

export const held = v.picklist(['resting', 'blocks'], 'expected resting or blocks');

export const face = v.picklist(['marked', 'other'], 'expected marked or other');

/** Cells of a file's columns that the tool does not know, by heading, as written. */
export const extra = v.exactOptional(
  v.record(v.string(), v.string('expected text'), 'expected cells by heading'),
);
