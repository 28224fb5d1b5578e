import type { LinePlan, WorkPlan } from '../../src/fairing/plan/plan.ts';
import { stationKey } from './readingsView.ts';
import { inColumn } from './readingText.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { isPlanned, nameOf } from './sheetFirst.ts';
import { readingsAt } from './sheetLine.ts';

/** Lines that are not worked, side by side, a row a station: for the record, and to read one of them again. */
export interface OtherLines {
  readonly heads: readonly { readonly name: string; readonly why: string }[];
  readonly rows: readonly { readonly station: string; readonly cells: readonly string[] }[];
}

const A_TABLE = 6;

/** Six lines to a table. A cell without a reading says why, or is a dash where nothing was meant to be read. */
export function otherLines({ lines }: WorkPlan, unit: WorkUnit): readonly OtherLines[] {
  const others = lines.filter((plan) => !isPlanned(plan) && plan.part === 1);
  const tables = Math.ceil(others.length / A_TABLE);
  return Array.from({ length: tables }, (_, i) =>
    tableOf(others.slice(i * A_TABLE, (i + 1) * A_TABLE), unit),
  );
}

function tableOf(lines: readonly LinePlan[], unit: WorkUnit): OtherLines {
  const stations = new Map<number, string>();
  for (const { line } of lines) {
    for (const { readings, voids, later } of line.placements) {
      for (const { station } of [...readings, ...voids, ...later]) {
        if (!stations.has(stationKey(station.mm))) {
          stations.set(stationKey(station.mm), inColumn(station, unit));
        }
      }
    }
  }
  const places = [...stations].sort(([a], [b]) => a - b);
  return {
    heads: lines.map((plan) => ({ name: nameOf(plan), why: whyNot(plan) })),
    rows: places.map(([key, station]) => ({
      station,
      cells: lines.map(({ line }) => cellOf(line, key, unit)),
    })),
  };
}

function cellOf(line: LinePlan['line'], key: number, unit: WorkUnit): string {
  const stations = line.placements.flatMap(({ readings }) => readings).map((r) => r.station.mm);
  const at = stations.find((mm) => stationKey(mm) === key);
  if (at !== undefined) return readingsAt(at, line.placements, unit);
  const said = line.placements
    .flatMap(({ voids, later }) => [...voids, ...later])
    .find(({ station }) => stationKey(station.mm) === key);
  return said?.reason ?? '–';
}

function whyNot(plan: LinePlan): string {
  switch (plan.is) {
    case 'nothing to do':
      return 'fair: leave';
    case 'measure first':
      return `${plan.why}: leave`;
    case 'impossible':
      return 'cannot be done so: see page 1';
    case 'planned':
      return '';
  }
}
