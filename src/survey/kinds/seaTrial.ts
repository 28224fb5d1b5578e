import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { prose, typedSpeed, words } from './pieces.ts';

export const SAW = ['steady', 'begins', 'porpoises'] as const;

/** One run of a sea trial, at one speed. `trial`: the name of the trial that it belongs to; without one `set` says whether
 *  it was run before or after the one change. `begins`: at this speed it was called to begin. */
export const seaTrialKind = defineKind({
  kind: 'sea trial',
  scope: 'survey',
  refers: [],
  schema: v.looseObject({
    set: v.exactOptional(v.picklist(['before', 'after'], 'expected before or after')),
    trial: v.exactOptional(words),
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
