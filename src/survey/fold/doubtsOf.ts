import type { Standing } from '../../book/standing.ts';
import { hullOf } from './hullOf.ts';
import type { Disagreement, Unused } from './report.ts';
import { surveyOf } from './surveyOf.ts';
import { surveysOf } from './surveysOf.ts';

/** What a person has to look at in all that stands of a hull: entries about the same thing that say different things,
 *  and what no fold can use, of the hull and of each survey. Throws RangeError on an entry whose id has no such form. */
export function doubtsOf({ standing, struckRows }: Pick<Standing, 'standing' | 'struckRows'>): {
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
} {
  const list = surveysOf(standing);
  const folds = [
    hullOf(standing),
    { ...list, setAside: [] },
    ...list.surveys.map(({ key }) => surveyOf(standing, struckRows, key)),
  ];
  return {
    disagreements: folds.flatMap((fold) => fold.disagreements),
    setAside: folds.flatMap((fold) => fold.setAside),
  };
}
