import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { held, reference, typed, words } from './pieces.ts';

/** One haul-out is measured. What may come later (tolerance, limit, conditions) is a `condition` of its own, so that
 *  two tablets do not write over one another. */
export const surveyKind = defineKind({
  kind: 'survey',
  scope: 'survey',
  refers: ['edge', 'gauge', 'checks'],
  schema: v.looseObject({
    date: v.exactOptional(words),
    place: v.exactOptional(words),
    by: v.exactOptional(words),
    /** The hull's name as a file wrote it. */
    hull: v.exactOptional(words),
    workUnit: v.picklist(['mm', 'in'], 'expected mm or in'),
    measured: v.picklist(['hand', 'log'], 'expected hand or log'),
    /** Stations that are meant to be read, forward of the transom. */
    stations: v.exactOptional(v.array(typed, 'expected a list of lengths')),
    /** What a new placement starts from. */
    edge: v.exactOptional(reference),
    gauge: v.exactOptional(reference),
    held: v.exactOptional(held),
    /** The worksheet whose work this survey was made to check. */
    checks: v.exactOptional(reference),
  }),
});
