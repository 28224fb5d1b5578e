import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { typedAboveZero, typedFromZero, words } from './pieces.ts';

/** What is known of the haul-out under these names is asked for before anyone rolls out, or later from memory. */
export const CONDITION = {
  hauled: 'hauled',
  daysAfloat: 'days afloat before',
  lastSupport: 'last long-term support',
  bunksEnd: 'bunks ended at',
  surface: 'surface',
  transomRadius: 'transom radius',
  sun: 'sun',
  temperature: 'temperature',
  tabs: 'tabs and pockets',
  /** "yes": one straightedge lies along both sides. Anything else, or nothing: none does. */
  flatAcross: 'flat across the keel',
  tolerance: 'tolerance',
  limit: 'limit of the straight run',
  repeatability: 'repeatability',
  weather: 'weather',
  madeFor: 'made for',
} as const;

const DAYS = 'expected days, 0 or more';

/** One condition of a haul-out: `about` names it, `said` is what was written; beside it the figures that are reckoned
 *  with: `gap` and `over` under "tolerance", `length` under "transom radius", "limit of the straight run",
 *  "repeatability" and "bunks ended at". Two standing entries about the same thing are a disagreement. */
export const conditionKind = defineKind({
  kind: 'condition',
  scope: 'survey',
  refers: [],
  schema: v.pipe(
    v.looseObject({
      about: words,
      said: v.exactOptional(v.pipe(v.string('expected text'), v.maxLength(20_000))),
      gap: v.exactOptional(typedAboveZero),
      over: v.exactOptional(typedAboveZero),
      setBy: v.exactOptional(words),
      length: v.exactOptional(typedFromZero),
      days: v.exactOptional(v.pipe(v.number(DAYS), v.finite(DAYS), v.minValue(0, DAYS))),
      celsius: v.exactOptional(v.pipe(v.number('expected degrees'), v.finite('expected degrees'))),
      surface: v.exactOptional(
        v.picklist(
          ['bare', 'thin paint', 'built-up', 'scraped'],
          'expected bare, thin paint, built-up or scraped',
        ),
      ),
    }),
    v.check(
      (body) => (body.gap === undefined) === (body.over === undefined),
      'expected the gap of a tolerance and the length it is over, both or neither',
    ),
    v.check(
      ({ said, gap, length, days, celsius, surface }) =>
        [said, gap, length, days, celsius, surface].some((stated) => stated !== undefined),
      'expected something said',
    ),
  ),
});
