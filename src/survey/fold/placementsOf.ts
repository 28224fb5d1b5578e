import type { BodyOf } from '../kinds/kinds.ts';
import type { Placement, Reading } from '../survey.ts';
import type { Act } from './actsOf.ts';
import type { HullState } from './hullOf.ts';
import { keptLogs } from './keptLogs.ts';
import { danglingOf, isThere, layingOf } from './laying.ts';
import type { Stated } from './readStanding.ts';
import { readingsOf } from './readingsOf.ts';
import { repeatBeside } from './repeatBeside.ts';
import type { Disagreement, Unused } from './report.ts';
import { firstStated, thingsOf } from './thingsOf.ts';

export interface PlacementsIn {
  readonly stated: readonly Stated<'placement'>[];
  /** In the order of ids and rows. */
  readonly acts: readonly Act[];
  readonly hull: HullState;
  readonly periodOf: (body: BodyOf<'placement'>) => number | undefined;
  readonly measured: 'hand' | 'log';
  /** Those that keep a file whole say which placements are logs. */
  readonly imports: readonly Stated<'import'>[];
}

export interface PlacementsOut {
  readonly byLine: ReadonlyMap<string, readonly Placement[]>;
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
}

/** Placements with their readings, by line. A placement whose line does not stand or has not arrived is set aside, and
 *  so is each reading, void or station put off whose placement is not there: nothing is dropped. */
export function placementsOf({
  stated,
  acts,
  hull,
  periodOf,
  measured,
  imports,
}: PlacementsIn): PlacementsOut {
  const things = thingsOf(stated, firstStated, ({ body }) => `placement ${body.name}`);
  const lines = new Map(hull.lines.flatMap((line) => line.ids.map((id) => [id, line] as const)));
  const disagreements = [...things.disagreements];
  const kept = keptLogs(imports, (id) => things.find.get(id)?.id);
  disagreements.push(...kept.disagreements);
  const setAside: Unused[] = [...kept.setAside];
  const actsBy = new Map<string, Act[]>();
  for (const act of acts) {
    const thing = things.find.get(act.placement);
    if (thing === undefined || !lines.has(thing.shown.body.line)) {
      const missing = thing === undefined ? 'placement' : 'line of its placement';
      setAside.push({
        id: act.source,
        kind: act.act,
        reason: `its ${missing} does not stand or has not arrived`,
      });
      continue;
    }
    const gauge = act.act === 'reading' ? act.body.gauge : undefined;
    if (gauge !== undefined && !isThere(hull.gauges, gauge)) {
      const reason = 'its gauge does not stand or has not arrived; the reading counts without it';
      setAside.push({ id: act.source, kind: act.act, reason });
    }
    const list = actsBy.get(thing.id);
    if (list === undefined) actsBy.set(thing.id, [act]);
    else list.push(act);
  }
  const byLine = new Map<string, Placement[]>();
  for (const { id, shown } of things.list) {
    const line = lines.get(shown.body.line);
    if (line === undefined) {
      setAside.push({
        id: shown.id,
        kind: 'placement',
        reason: 'its line does not stand or has not arrived',
      });
      continue;
    }
    const beside = byLine.get(line.id) ?? [];
    const where = `${line.name}, placement ${shown.body.name}`;
    const { repeat, twin } = repeatBeside(
      shown.body,
      beside,
      things.list.flatMap(({ shown: { body } }) => (line.ids.includes(body.line) ? [body] : [])),
    );
    if (twin !== undefined) {
      const about = `${where}: two bear repeat ${shown.body.repeat}`;
      disagreements.push({ about, entries: [twin, id] });
    }
    setAside.push(...danglingOf('placement', shown, hull, periodOf(shown.body)));
    const read = readingsOf(actsBy.get(id) ?? [], hull.gauges, measured, where);
    disagreements.push(...read.disagreements);
    const log = kept.logs.get(id);
    if (log !== undefined) setAside.push(...besideLog(read.readings));
    beside.push({
      id,
      name: shown.body.name,
      repeat,
      ...layingOf(shown.body, hull, periodOf(shown.body)),
      ...endsOf(shown.body),
      readings: log === undefined ? read.readings : [],
      ...(log !== undefined && { log }),
      voids: read.voids,
      later: read.later,
    });
    byLine.set(line.id, beside);
  }
  return { byLine, disagreements, setAside };
}

/** Readings by hand of a laying that was logged. */
function besideLog(readings: readonly Reading[]): readonly Unused[] {
  const reason = 'its placement is a log; lay the edge again to read it by hand';
  return readings.map(({ source }) => ({ id: source, kind: 'reading', reason }));
}

/** Where the edge's aft end was, and which end it was. */
function endsOf({ aftEnd, aftMark }: BodyOf<'placement'>) {
  return {
    ...(aftEnd !== undefined && { aftEnd: aftEnd.mm }),
    ...(aftMark !== undefined && { aftMark }),
  };
}
