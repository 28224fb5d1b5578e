import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, words } from './pieces.ts';

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

export const SAW = ['steady', 'begins', 'porpoises'] as const;

/** One run of a sea trial, at one speed. `set` pairs the runs before and after a change; `begins`: at this speed it was
 *  called to begin. */
export const seaTrialKind = defineKind({
  kind: 'sea trial',
  scope: 'survey',
  refers: [],
  schema: v.looseObject({
    set: v.picklist(['before', 'after'], 'expected before or after'),
    speed: typedSpeed,
    saw: v.picklist(SAW, `expected one of ${SAW.join(', ')}`),
    /** Revolutions a minute. */
    revs: v.exactOptional(
      v.pipe(
        v.number('expected revs above 0'),
        v.finite('expected revs above 0'),
        v.check((revs) => revs > 0, 'expected revs above 0'),
      ),
    ),
    driveTrim: v.exactOptional(words),
    tabs: v.exactOptional(words),
    load: v.exactOptional(words),
    sea: v.exactOptional(words),
    /** When it was run, where it is not when it was written down. */
    date: v.exactOptional(words),
    time: v.exactOptional(words),
    notes: v.exactOptional(prose),
  }),
});
