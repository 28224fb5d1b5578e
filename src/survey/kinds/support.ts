import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { counted, prose, sameAs, words } from './pieces.ts';

const SLINGS =
  'a hull in slings is not measured: set it on its supports, checked and chained, first';
const ONLY_SLINGS =
  /^\s*(?:(?:hanging|still)\s+)?(?:(?:in|on|from)\s+)?(?:the\s+)?slings?\s*(?:only|alone)?\s*\.?\s*$/i;

/** What stands where under the hull, since when. A move of the support, or an engine taken off or held, is a new
 *  one. A hull in slings is refused. */
export const supportKind = defineKind({
  kind: 'support',
  scope: 'survey',
  refers: ['sameAs'],
  schema: v.looseObject({
    sameAs,
    /** Which standing of this haul-out it is, counting from 1. */
    nth: counted,
    what: v.pipe(
      v.string('expected text'),
      v.minLength(1, 'expected what the hull stands on'),
      v.maxLength(20_000, 'expected at most 20,000 characters'),
      v.check((what) => !ONLY_SLINGS.test(what), SLINGS),
    ),
    /** Since when, as written. */
    at: v.exactOptional(words),
    slings: v.exactOptional(v.literal(false, SLINGS)),
    engine: v.exactOptional(v.picklist(['hung', 'held', 'off'], 'expected hung, held or off')),
    checkedBy: v.exactOptional(words),
    notes: v.exactOptional(prose),
  }),
});
