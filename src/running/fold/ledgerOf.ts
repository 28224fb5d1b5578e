import type { Entry } from '../../book/entry.ts';
import { readStanding, type Stated } from '../../survey/fold/readStanding.ts';
import type { Disagreement, Unused } from '../../survey/fold/report.ts';
import { firstStated, thingsOf } from '../../survey/fold/thingsOf.ts';
import type { BodyOf } from '../../survey/kinds/kinds.ts';
import type { Bounds } from '../../survey/kinds/figurePieces.ts';
import type { Estimate } from '../estimate.ts';
import type { LedgerItem, Place } from '../weights/ledger.ts';

/** What an item still lacks before it can be reckoned with. */
export type Lacking = 'mass' | 'place' | 'place before' | 'place after' | 'the item that it was';

/** A line of the ledger as it stands in the field book. */
export interface LedgerLine {
  /** Of the thing, by which other items refer to it. */
  readonly id: string;
  readonly by: string;
  readonly at: string;
  readonly body: BodyOf<'weight item'>;
  /** Absent where something lacks. */
  readonly item?: LedgerItem;
  readonly lacks: readonly Lacking[];
  /** Mass alone, where it is known. */
  readonly mass?: Estimate;
}

export interface Ledger {
  /** What is aboard first, then the changes of now, then those proposed; each as they were first stated. */
  readonly lines: readonly LedgerLine[];
  /** Those that can be reckoned with. */
  readonly items: readonly LedgerItem[];
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
}

/** The ledger that standing entries state, whatever order they come in. An item that lacks its mass or place is kept and
 *  told, and not reckoned with. A removed or moved item that names the thing it was has that thing's mass. */
export function ledgerOf(standing: readonly Entry[]): Ledger {
  const read = readStanding(standing.filter(({ kind }) => kind === 'weight item'));
  const things = thingsOf(
    read.of('weight item'),
    firstStated,
    ({ body }) => `the weight of ${body.name}`,
  );
  const find = (id: string) => things.find.get(id);
  const lines = things.list.map(({ id, shown }) => lineOf(id, shown, find));
  const order = (line: LedgerLine) =>
    line.body.act === 'aboard' ? 0 : line.body.since === 'as proposed' ? 2 : 1;
  lines.sort((a, b) => order(a) - order(b) || (a.id < b.id ? -1 : 1));
  return {
    lines,
    items: lines.flatMap(({ item }) => item ?? []),
    disagreements: things.disagreements,
    setAside: read.setAside,
  };
}

type Find = (
  id: string,
) => { readonly id: string; readonly shown: Stated<'weight item'> } | undefined;

function lineOf(id: string, { at, by, body }: Stated<'weight item'>, find: Find): LedgerLine {
  const was = body.thing === undefined ? undefined : find(body.thing);
  const figure = body.thing === undefined ? body.mass : was?.shown.body.mass;
  const mass = figure && estimateOf(figure.kg);
  const lacks: Lacking[] = [];
  if (body.thing !== undefined && was === undefined) lacks.push('the item that it was');
  else if (mass === undefined) lacks.push('mass');
  const own = (key: 'at' | 'from' | 'to', lacking: Lacking): Place => {
    const place = placeOf(body[key]);
    if (place !== undefined) return place;
    lacks.push(lacking);
    return NOWHERE;
  };
  const since = body.since ?? 'as now';
  const weighed = {
    name: body.name,
    mass: mass ?? { value: 0 },
    thing: was?.id ?? id,
  };
  const item = ((): LedgerItem => {
    switch (body.act) {
      case 'aboard':
        return {
          ...weighed,
          act: 'aboard',
          at: own('at', 'place'),
          ...(body.weighed !== undefined && { weighed: body.weighed }),
        };
      case 'removed':
        return { ...weighed, act: 'removed', from: own('from', 'place'), since };
      case 'added':
        return { ...weighed, act: 'added', to: own('to', 'place'), since };
      case 'moved':
        return {
          ...weighed,
          act: 'moved',
          from: own('from', 'place before'),
          to: own('to', 'place after'),
          since,
        };
    }
  })();
  return {
    ...{ id, at, by, body, lacks },
    ...(mass && { mass }),
    ...(lacks.length === 0 && { item }),
  };
}

/** Never reckoned with: a line that lacks its place has no item. */
const NOWHERE: Place = { x: { value: 0 } };

function placeOf(place: BodyOf<'weight item'>['at']): Place | undefined {
  if (place?.x === undefined) return undefined;
  return {
    x: estimateOf(place.x.mm),
    ...(place.height && { height: estimateOf(place.height.mm) }),
  };
}

/** A figure as stated: as it is, or between bounds. */
export function estimateOf(figure: number | Bounds): Estimate {
  if (typeof figure === 'number') return { value: figure };
  const { low, high, likeliest } = figure;
  return { low, high, ...(likeliest !== undefined && { likeliest }) };
}
