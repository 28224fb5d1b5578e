import type { Entry } from '../../book/entry.ts';
import { NO_SURVEY, parseId } from '../../book/id.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import { edgeChecksOf, type CheckOfEdge } from './edgeChecksOf.ts';
import { hullLinesOf, type HullLine } from './hullLinesOf.ts';
import { readStanding } from './readStanding.ts';
import { remarksOf, type Remark } from './remarksOf.ts';
import type { Disagreement, Unused } from './report.ts';
import { firstStated, thingsOf, type Thing } from './thingsOf.ts';

type Identified<B> = { readonly id: string } & Readonly<B>;

export type HullFacts = Identified<BodyOf<'hull'>>;
export type HullFeature = Identified<BodyOf<'feature'>>;
export type Straightedge = Identified<BodyOf<'straightedge'>> & {
  /** In the order of their ids; absent where there are none. */
  readonly checks?: readonly CheckOfEdge[];
};
export type Gauge = Identified<BodyOf<'gauge'>>;

/** What a hull's entries say of the hull itself. Ids are those by which readings and placements refer to things. */
export interface HullState {
  /** Absent until somebody has given a name. */
  readonly hull?: HullFacts;
  /** Port, centre, starboard; each from the keel outwards. */
  readonly lines: readonly HullLine[];
  readonly features: readonly HullFeature[];
  readonly straightedges: readonly Straightedge[];
  readonly gauges: readonly Gauge[];
  readonly remarks: readonly Remark[];
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
}

const HULL_KINDS = ['hull', 'line', 'feature', 'straightedge', 'edge check', 'gauge'];

/** Folds the standing entries of one hull to what they say of the hull itself, whatever order they come in. What
 *  cannot be read is set aside with its reason. Two standing hull entries that say different things are a
 *  disagreement; the last by id is shown. Throws RangeError on an entry whose id has no such form. */
export function hullOf(standing: readonly Entry[]): HullState {
  const own = standing.filter(
    (entry) =>
      HULL_KINDS.includes(entry.kind) ||
      (entry.kind === 'note' && surveyKeyOf(entry._id) === NO_SURVEY),
  );
  const read = readStanding(own);
  const hulls = thingsOf(
    read.of('hull'),
    () => 'hull',
    () => 'who and what the hull is',
  );
  const features = thingsOf(read.of('feature'), firstStated, ({ body }) => `the ${body.feature}`);
  const edges = thingsOf(
    read.of('straightedge'),
    firstStated,
    ({ body }) => `the straightedge ${body.name}`,
  );
  const gauges = thingsOf(read.of('gauge'), firstStated, ({ body }) => `the gauge ${body.name}`);
  const checks = edgeChecksOf(read.of('edge check'), edges);
  const lines = hullLinesOf(read.of('line'));
  const [hull] = hulls.list;
  return {
    ...(hull !== undefined && { hull: { ...hull.shown.body, id: hull.shown.id } }),
    lines: lines.lines,
    features: features.list.map(identified),
    straightedges: edges.list.map((edge) => {
      const own = checks.byEdge.get(edge.id);
      return { ...identified(edge), ...(own !== undefined && { checks: own }) };
    }),
    gauges: gauges.list.map(identified),
    remarks: remarksOf(read.of('note')),
    disagreements: [hulls, lines, features, edges, checks, gauges].flatMap(
      (part) => part.disagreements,
    ),
    setAside: [...read.setAside, ...checks.setAside],
  };
}

/** The key of the survey that an entry belongs to, or `'0'`. Throws RangeError on an id that has no such form. */
export function surveyKeyOf(id: string): string {
  const parsed = parseId(id);
  if (!parsed.ok) throw new RangeError(`id: got ${JSON.stringify(id)}: ${parsed.reason}`);
  return parsed.survey;
}

function identified<K extends 'feature' | 'straightedge' | 'gauge'>(
  thing: Thing<K>,
): Identified<BodyOf<K>> {
  return { ...thing.shown.body, id: thing.id };
}
