import type { BodyOf } from '../kinds/kinds.ts';
import { canCross } from '../panels/placeAthwart.ts';
import type { PlacementAcross } from '../survey.ts';
import type { Act } from './actsOf.ts';
import type { HullState } from './hullOf.ts';
import { danglingOf, isThere, layingOf } from './laying.ts';
import type { Stated } from './readStanding.ts';
import { readingsOf } from './readingsOf.ts';
import { repeatBeside } from './repeatBeside.ts';
import type { Disagreement, Unused } from './report.ts';
import { firstStated, thingsOf } from './thingsOf.ts';

export interface AcrossIn {
  readonly stated: readonly Stated<'placement across'>[];
  /** In the order of ids and rows. */
  readonly acts: readonly Act[];
  readonly hull: HullState;
  readonly periodOf: (body: BodyOf<'placement across'>) => number | undefined;
  /** Whether it is stated that the bottom is flat across the keel. */
  readonly flat: boolean;
}

export interface AcrossOut {
  readonly across: readonly PlacementAcross[];
  /** Acts of other placements. */
  readonly others: readonly Act[];
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
}

const NOT_FLAT =
  'it lies across the keel, and nobody states that this bottom is flat there; it is kept and not reckoned with';

/** Placements across with their readings, each by the line that it is of. A reading whose line does not stand, lies on
 *  the other side, or is not said is set aside: nothing is dropped. One right across the keel of a bottom that nobody
 *  states is flat there stands, and is said not to be used. Two of one side, direction, name and repeat both
 *  stand, the later by id as one repeat more. */
export function acrossOf({ stated, acts, hull, periodOf, flat }: AcrossIn): AcrossOut {
  const things = thingsOf(stated, firstStated, ({ body }) => `placement across ${body.name}`);
  const lines = new Map(hull.lines.flatMap((line) => line.ids.map((id) => [id, line] as const)));
  const disagreements = [...things.disagreements];
  const setAside: Unused[] = [];
  const own = new Map<string, Map<string, Act[]>>();
  const others: Act[] = [];
  for (const act of acts) {
    const thing = things.find.get(act.placement);
    if (thing === undefined) {
      others.push(act);
      continue;
    }
    const said = act.body.line;
    const line = said === undefined ? undefined : lines.get(said);
    const { side } = thing.shown.body;
    if (line === undefined || !canCross(side, { side: line.side, offset: line.offset.mm })) {
      const wrong =
        line === undefined
          ? 'does not stand or has not arrived'
          : side === 'both'
            ? 'lies off the keel and on neither side'
            : `is not to ${side}`;
      const reason = said === undefined ? 'it does not say its line' : `its line ${wrong}`;
      setAside.push({ id: act.source, kind: act.act, reason });
      continue;
    }
    const gauge = act.act === 'reading' ? act.body.gauge : undefined;
    if (gauge !== undefined && !isThere(hull.gauges, gauge)) {
      const reason = 'its gauge does not stand or has not arrived; the reading counts without it';
      setAside.push({ id: act.source, kind: act.act, reason });
    }
    const byLine = own.get(thing.id) ?? new Map<string, Act[]>();
    byLine.set(line.id, [...(byLine.get(line.id) ?? []), act]);
    own.set(thing.id, byLine);
  }
  const across: PlacementAcross[] = [];
  for (const { id, shown } of things.list) {
    const { side, direction, name } = shown.body;
    const where = `${side === 'both' ? 'across the keel' : side}, ${direction} placement ${name}`;
    if (side === 'both' && !flat) {
      const reason = NOT_FLAT;
      setAside.push({ id, kind: 'placement across', reason });
    }
    const { repeat, twin } = repeatBeside(
      shown.body,
      across.filter((other) => other.side === side && other.direction === direction),
      things.list.flatMap(({ shown: { body } }) =>
        body.side === side && body.direction === direction ? [body] : [],
      ),
    );
    if (twin !== undefined) {
      const about = `${where}: two bear repeat ${shown.body.repeat}`;
      disagreements.push({ about, entries: [twin, id] });
    }
    setAside.push(...danglingOf('placement across', shown, hull, periodOf(shown.body)));
    const parts = [...(own.get(id) ?? [])].map(([line, list]) => {
      const of = hull.lines.find((each) => each.id === line)?.name ?? line;
      return { line, ...readingsOf(list, hull.gauges, 'hand', `${where}, line ${of}`) };
    });
    disagreements.push(...parts.flatMap((part) => part.disagreements));
    const on = <T extends object>(of: (part: (typeof parts)[number]) => readonly T[]) =>
      parts.flatMap((part) => of(part).map((item) => ({ ...item, line: part.line })));
    across.push({
      id,
      side,
      direction,
      name,
      repeat,
      ...layingOf(shown.body, hull, periodOf(shown.body)),
      readings: on(({ readings }) => readings),
      voids: on(({ voids }) => voids),
      later: on(({ later }) => later),
    });
  }
  return { across, others, disagreements, setAside };
}
