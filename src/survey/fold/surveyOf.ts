import type { Entry } from '../../book/entry.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import type { Line, PlacementAcross, Survey, Typed } from '../survey.ts';
import { supportTimeline } from '../supportTimeline.ts';
import { acrossOf } from './acrossOf.ts';
import { actsOf, type StruckRows } from './actsOf.ts';
import { conditionsOf } from './conditionsOf.ts';
import { flatAcrossKeel } from '../flatAcrossKeel.ts';
import { edgesUsed } from './edgesUsed.ts';
import { hullOf, surveyKeyOf, type Gauge, type HullState } from './hullOf.ts';
import { inOrder } from './order.ts';
import { pickTyped } from './pickTyped.ts';
import { placementsOf } from './placementsOf.ts';
import { readStanding } from './readStanding.ts';
import { remarksOf, type Remark } from './remarksOf.ts';
import type { Disagreement, Unused } from './report.ts';
import { firstStated, thingsOf } from './thingsOf.ts';

/** What a new placement of this survey starts from. */
export interface SurveyPlan {
  readonly stations: readonly Typed[];
  /** Ids of the straightedge and the gauge. */
  readonly edge?: string;
  readonly gauge?: string;
  readonly held?: 'resting' | 'blocks';
}

export interface SurveyState {
  readonly key: string;
  /** Lines that have a placement in this survey or are crossed by one; ids of placements and lines are those by which entries refer to
   *  them, and `source` is the id of the entry, or `<id>#<row>` of an import's row. */
  readonly survey: Survey;
  readonly place?: string;
  readonly by?: string;
  readonly plan: SurveyPlan;
  /** Id of the worksheet whose work this survey was made to check. */
  readonly checks?: string;
  readonly remarks: readonly Remark[];
  readonly disagreements: readonly Disagreement[];
  /** What of this survey cannot be read, or waits for something that does not stand or has not arrived; what of the
   *  hull cannot be read is in its own state. */
  readonly setAside: readonly Unused[];
}

/** Folds the standing entries of one hull to one of its surveys, whatever order they come in.
 *  `struckRows`: as `standing` of src/book gives them. `surveyKey`: the 12 characters in the ids.
 *  Two readings of one station of a lay that bear the same look, neither striking the other, both stand: the later
 *  by id becomes one look more, so that nothing is lost, and they are listed as a disagreement; so are a void and a
 *  reading of one station, two placements of one name and repeat (the later by id becomes one repeat more), and two
 *  statements of the same condition. In a log, several readings of one station are as they should be.
 *  Until an entry of kind `survey` has arrived, the unit is taken as mm and the survey as made by hand.
 *  Throws RangeError on an entry whose id has no such form. */
export function surveyOf(
  standing: readonly Entry[],
  struckRows: StruckRows,
  surveyKey: string,
): SurveyState {
  const hull = hullOf(standing);
  const read = readStanding(standing.filter((entry) => surveyKeyOf(entry._id) === surveyKey));
  const surveys = thingsOf(
    read.of('survey'),
    () => surveyKey,
    () => 'date, place, person, unit or plan of the survey',
  );
  const body = surveys.list[0]?.shown.body;
  const support = thingsOf(read.of('support'), firstStated, ({ body: said }) => said.what);
  const timeline = supportTimeline(support.list.map(({ id, shown }) => ({ ...shown.body, id })));
  const conditions = conditionsOf(read.of('condition'));
  const acts = actsOf(read, struckRows);
  const measured = body?.measured ?? 'hand';
  const periodOf = ({ support: on, laid }: Partial<BodyOf<'placement'>>): number | undefined => {
    const id = on === undefined ? undefined : (support.find.get(on)?.id ?? on);
    if (id !== undefined) return timeline.periodOf(id);
    return laid === undefined ? undefined : timeline.periodAt(laid);
  };
  const across = acrossOf({
    stated: read.of('placement across'),
    acts: acts.acts,
    hull,
    periodOf: ({ support: on }) => periodOf(on === undefined ? {} : { support: on }),
    flat: flatAcrossKeel({ conditions: conditions.said }),
  });
  const placements = placementsOf({
    stated: read.of('placement'),
    acts: across.others,
    hull,
    periodOf,
    measured,
    imports: read.of('import'),
  });
  const layings = [...read.of('placement'), ...read.of('placement across')];
  const repeatability = conditions.repeatability ?? statedByEveryGauge(layings, hull);
  const name = hull.hull?.name ?? body?.hull;
  const edges = edgesUsed(hull.straightedges, layings);
  const survey: Survey = {
    ...(name !== undefined && { hull: name }),
    ...(body?.date !== undefined && { date: body.date }),
    conditions: conditions.said,
    support: timeline.events,
    ...(conditions.tolerance !== undefined && { tolerance: conditions.tolerance }),
    ...(conditions.limit !== undefined && { limit: conditions.limit }),
    ...(repeatability !== undefined && { repeatability }),
    ...(conditions.transomRadius !== undefined && { transomRadius: conditions.transomRadius }),
    workUnit: body?.workUnit ?? 'mm',
    kind: measured,
    ...(edges.length > 0 && { edges }),
    lines: linesWith(hull, placements.byLine, linesAcross(across.across)),
    ...(across.across.length > 0 && { across: across.across }),
  };
  return {
    key: surveyKey,
    survey: inOrder(survey),
    ...(body?.place !== undefined && { place: body.place }),
    ...(body?.by !== undefined && { by: body.by }),
    ...(body?.checks !== undefined && { checks: body.checks }),
    plan: {
      stations: (body?.stations ?? []).map(pickTyped),
      ...(body?.edge !== undefined && { edge: body.edge }),
      ...(body?.gauge !== undefined && { gauge: body.gauge }),
      ...(body?.held !== undefined && { held: body.held }),
    },
    remarks: remarksOf(read.of('note')),
    disagreements: [surveys, support, conditions, placements, across].flatMap(
      (part) => part.disagreements,
    ),
    setAside: [read, acts, placements, across].flatMap((part) => part.setAside),
  };
}

function linesWith(
  hull: HullState,
  byLine: ReadonlyMap<string, Line['placements']>,
  crossed: ReadonlySet<string>,
): readonly Line[] {
  return hull.lines
    .filter((line) => byLine.has(line.id) || crossed.has(line.id))
    .map((line) => ({
      id: line.id,
      name: line.name,
      side: line.side,
      offset: line.offset.mm,
      ...(line.landmark !== undefined && { landmark: line.landmark }),
      ...(line.limit !== undefined && { limit: line.limit.mm }),
      placements: byLine.get(line.id) ?? [],
    }));
}

/** Lines that a placement across says anything of. */
function linesAcross(across: readonly PlacementAcross[]): ReadonlySet<string> {
  return new Set(
    across.flatMap(({ readings, voids, later }) =>
      [...readings, ...voids, ...later].map(({ line }) => line),
    ),
  );
}

/** A repeatability that is stated for each gauge in use, and the same for all. */
function statedByEveryGauge(
  placements: readonly { readonly body: { readonly gauge?: string } }[],
  hull: HullState,
): number | undefined {
  const gauges = placements.map(({ body }): Gauge | undefined =>
    hull.gauges.find((gauge) => gauge.id === body.gauge),
  );
  const stated = new Set(gauges.map((gauge) => gauge?.repeatability?.mm));
  return stated.size === 1 ? [...stated][0] : undefined;
}
