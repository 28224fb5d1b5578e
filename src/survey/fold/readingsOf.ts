import type { ExtraCells, LaterStation, Reading, VoidStation } from '../survey.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import type { Act } from './actsOf.ts';
import type { Gauge } from './hullOf.ts';
import { pickTyped } from './pickTyped.ts';
import type { Disagreement } from './report.ts';

/** What was done at the stations of one placement. */
export interface Readings {
  readonly readings: readonly Reading[];
  readonly voids: readonly VoidStation[];
  readonly later: readonly LaterStation[];
  readonly disagreements: readonly Disagreement[];
}

/** Readings, voids and stations put off of one placement. A second reading of one look becomes one look more than any
 *  that was stated; outside a log it is a disagreement, and so is a station both read and void.
 *  `acts`: in the order of ids and rows. `where`: the placement in words. */
export function readingsOf(
  acts: readonly Act[],
  gauges: readonly Gauge[],
  measured: 'hand' | 'log',
  where: string,
): Readings {
  const readings: Reading[] = [];
  const voids: VoidStation[] = [];
  const later: LaterStation[] = [];
  const read = new Map<number, (Act & { act: 'reading' })[]>();
  for (const act of acts) {
    const { source } = act;
    if (act.act === 'reading') {
      const place = stationKey(act.body.station.mm);
      const list = read.get(place);
      if (list === undefined) read.set(place, [act]);
      else list.push(act);
      continue;
    }
    const station = pickTyped(act.body.station);
    (act.act === 'void' ? voids : later).push({
      station,
      reason: act.body.reason,
      ...said(act.body),
      source,
    });
  }
  const disagreements: Disagreement[] = [];
  for (const list of read.values()) {
    const looks = new Map<number, string[]>();
    let last = list.reduce((most, { body }) => Math.max(most, body.look), 1);
    for (const { body, source } of list) {
      const beside = looks.get(body.look);
      if (beside === undefined) looks.set(body.look, [source]);
      else beside.push(source);
      const look = beside === undefined ? body.look : (last += 1);
      readings.push(readingOf(body, gauges, look, source));
    }
    if (measured === 'log') continue;
    const station = list[0].body.station.text;
    for (const [look, entries] of looks) {
      if (entries.length < 2) continue;
      disagreements.push({
        about: `${where}, station ${station}: ${entries.length} readings of look ${look}`,
        entries,
      });
    }
  }
  for (const { station, source } of voids) {
    const beside = read.get(stationKey(station.mm));
    if (beside === undefined) continue;
    disagreements.push({
      about: `${where}, station ${station.text}: void and read`,
      entries: [source, ...beside.map((act) => act.source)].sort(),
    });
  }
  return { readings, voids, later, disagreements };
}

function readingOf(
  body: BodyOf<'reading'>,
  gauges: readonly Gauge[],
  look: number,
  source: string,
): Reading {
  const gauge = gauges.find(({ id }) => id === body.gauge);
  const division = body.division ?? gauge?.division;
  const reads = body.reads ?? gauge?.reads;
  return {
    station: pickTyped(body.station),
    gap: pickTyped(body.gap),
    look,
    ...(division !== undefined && { division: division.mm }),
    ...(reads !== undefined && { reads }),
    ...(body.weight !== undefined && { weight: body.weight }),
    ...said(body),
    source,
  };
}

/** A note and the cells of unknown columns, where there are any. */
function said({ note, extra }: BodyOf<'reading' | 'void' | 'later'>): {
  readonly note?: string;
  readonly extra?: ExtraCells;
} {
  return { ...(note !== undefined && { note }), ...(extra !== undefined && { extra }) };
}

/** Two stations less than a micrometre apart are one: 3 in and 76.2 mm must meet. */
function stationKey(mm: number): number {
  return Math.round(mm * 1000);
}
