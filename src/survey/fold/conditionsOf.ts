import { CONDITION } from '../kinds/condition.ts';
import type { Tolerance } from '../survey.ts';
import type { Stated } from './readStanding.ts';
import type { Disagreement } from './report.ts';
import { thingsOf } from './thingsOf.ts';

/** What the conditions of a haul-out say: as written, and the figures that are reckoned with, mm. */
export interface Conditions {
  readonly said: Readonly<Record<string, string>>;
  readonly tolerance?: Tolerance;
  readonly limit?: number;
  readonly repeatability?: number;
  readonly transomRadius?: number;
  readonly disagreements: readonly Disagreement[];
}

/** Folds conditions, one for each name in `about`. Of several that stand, the last by id is used, and they are a
 *  disagreement unless they say the same. `stated`: in the order of their ids. */
export function conditionsOf(stated: readonly Stated<'condition'>[]): Conditions {
  const things = thingsOf(
    stated,
    ({ body }) => body.about,
    ({ body }) => body.about,
  );
  const said: [string, string][] = [];
  for (const { shown } of things.list) {
    if (shown.body.said !== undefined) said.push([shown.body.about, shown.body.said]);
  }
  const body = (about: string) => things.list.find(({ id }) => id === about)?.shown.body;
  const tolerance = body(CONDITION.tolerance);
  const limit = body(CONDITION.limit)?.length;
  const repeatability = body(CONDITION.repeatability)?.length;
  const transomRadius = body(CONDITION.transomRadius)?.length;
  return {
    said: Object.fromEntries(said),
    ...(tolerance?.gap !== undefined &&
      tolerance.over !== undefined && {
        tolerance: {
          gap: tolerance.gap.mm,
          over: tolerance.over.mm,
          ...(tolerance.setBy !== undefined && { setBy: tolerance.setBy }),
          houseDefault: false,
        },
      }),
    ...(limit !== undefined && { limit: limit.mm }),
    ...(repeatability !== undefined && { repeatability: repeatability.mm }),
    ...(transomRadius !== undefined && { transomRadius: transomRadius.mm }),
    disagreements: things.disagreements,
  };
}
