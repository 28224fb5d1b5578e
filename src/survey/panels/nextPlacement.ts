import type { AcrossWorth } from '../../fit/surface/nextAcross.ts';
import { showPlace, type WorkUnit } from '../figures.ts';
import { smallFigure } from '../smallFigure.ts';
import type { PanelJudged, Wanted } from './assessPanels.ts';

export interface NextPlacement {
  readonly worth: AcrossWorth;
  /** What it would make known better; `twist`: something that nothing tells of yet. */
  readonly of: Wanted | 'twist';
}

/** The placement across that would help most: for the twist where none is known or its corner is undecided, else for the
 *  heights where they are. None where all is decided, or where one more would not help a fiftieth. */
export function nextPlacement({
  panel,
  twist,
  areas,
  next,
}: PanelJudged): NextPlacement | undefined {
  const best = (wanted: Wanted) => {
    const [worth] = next(wanted);
    return worth !== undefined && worth.then < 0.98 * worth.now ? worth : undefined;
  };
  if (panel.datum !== 'plane') {
    const [worth] = next('heights');
    return worth && { worth, of: 'twist' };
  }
  if (twist?.verdict === 'twisted') return undefined;
  const of = twist?.verdict === 'undecided' ? 'corner' : 'heights';
  if (of === 'heights' && areas.verdict !== 'undecided') return undefined;
  const worth = best(of);
  return worth && { worth, of };
}

/** "Lay the straightedge athwart at 600 mm, over all lines: heights would on average be known to ± 0.42 mm instead of
 *  ± 0.60 mm." The last argument: what the lines are called between which it lies. */
export function nextSentence(
  { worth, of }: NextPlacement,
  unit: WorkUnit,
  [inmost, outmost]: readonly [string, string] = ['the inner line', 'the outer'],
): string {
  const { direction, inner, outer, now, then } = worth;
  const place =
    direction === 'athwart'
      ? `athwart at ${showPlace(inner, unit)}`
      : `on the diagonal from ${showPlace(inner, unit)} on ${inmost} to ${showPlace(outer, unit)} on ${outmost}`;
  const lay = `Lay the straightedge ${place}, over all lines`;
  if (of === 'twist') return `${lay}: nothing else shows a twist.`;
  const known = `be known to ± ${smallFigure(2 * then, unit)} instead of ± ${smallFigure(2 * now, unit)}`;
  return of === 'corner'
    ? `${lay}: that helps most, and the fourth corner would ${known}.`
    : `${lay}: heights would on average ${known}.`;
}
