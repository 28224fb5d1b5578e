import { acrossSideName } from '../../src/survey/acrossSide.ts';
import { capital } from '../../src/survey/sentence.ts';
import type { PlacementAcross } from '../../src/survey/survey.ts';
import {
  acrossName,
  acrossRows,
  stationsAcross,
  type AcrossBody,
  type AcrossRowsFrom,
} from './acrossView.ts';
import type { StatedLay } from './layView.ts';
import type { PlanAcross } from './planAcross.ts';
import { lineProgress } from './readingsView.ts';

/** Placements across as the plan draws them, each from its innermost line to its outermost; one line makes none. `now`: the
 *  one that is being read, which may not be stated yet. */
export function acrossDrawn(
  stated: readonly StatedLay<'placement across'>[],
  across: readonly PlacementAcross[],
  from: Omit<AcrossRowsFrom, 'body' | 'placement'>,
  now?: { readonly id: string | undefined; readonly body: AcrossBody | undefined },
): readonly PlanAcross[] {
  const bodies = new Map(stated.map(({ id, body }) => [id, body]));
  const own = across.map((placement) => ({
    id: placement.id,
    side: placement.side,
    placement,
    body: bodies.get(placement.id),
  }));
  const begun =
    now?.id === undefined && now?.body !== undefined
      ? [{ id: 'now', side: now.body.side, placement: undefined, body: now.body }]
      : [];
  return [...own, ...begun].flatMap(({ id, side, placement, body }): readonly PlanAcross[] => {
    const rows = acrossRows({ ...from, body, placement });
    const points = rows.flatMap(({ line, station }) => {
      const own = from.lines.find((each) => each.id === line);
      return own === undefined
        ? []
        : [{ side: own.side, offset: own.offset.mm, station: station.mm }];
    });
    const laid = placement ?? body;
    if (points.length < 2 || laid === undefined) return [];
    const name = acrossName(laid, stationsAcross(rows), from.workUnit);
    const words = `${capital(acrossSideName(side))}, ${name}: ${lineProgress(rows).words} read`;
    return [{ id, is: id === (now?.id ?? 'now') ? 'now' : 'laid', points, words }];
  });
}
