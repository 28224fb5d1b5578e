import { exactDecimal, exactLength } from '../exactText.ts';
import type { Unit } from '../units.ts';
import type { MeasuredRow } from './measuredRow.ts';

/** Averages the rows of a log that stand at one station and look; the weight of each is the number of raw readings in
 *  it. Rows without a gap, and rows that stand alone, are passed on as they are. What else stood in the averaged
 *  rows: notes are joined, cells of unknown columns are the first row's. */
export function averageLog(rows: readonly MeasuredRow[], gapUnit: Unit): readonly MeasuredRow[] {
  const groups = new Map<string, MeasuredRow[]>();
  const order: MeasuredRow[][] = [];
  for (const row of rows) {
    const key = `${row.station?.mm} ${row.look}`;
    const group = row.gap === undefined ? undefined : groups.get(key);
    if (group !== undefined) {
      group.push(row);
      continue;
    }
    const fresh = [row];
    order.push(fresh);
    if (row.gap !== undefined) groups.set(key, fresh);
  }
  return order.flatMap((group) => {
    const [first, ...more] = group;
    return first === undefined || more.length === 0 ? group : [average(first, group, gapUnit)];
  });
}

function average(first: MeasuredRow, group: readonly MeasuredRow[], gapUnit: Unit): MeasuredRow {
  let weight = 0;
  let sum = 0;
  for (const row of group) {
    const one = row.weight ?? 1;
    weight += one;
    if (row.gap !== undefined) sum += one * row.gap.mm;
  }
  const mm = Math.round((sum / weight) * 1e6) / 1e6;
  const text = exactDecimal(mm, gapUnit) ?? exactLength(mm, gapUnit);
  const notes = [...new Set(group.flatMap(({ note }) => (note === undefined ? [] : [note])))];
  return {
    ...first,
    gap: { mm, text },
    weight,
    ...(notes.length === 0 ? {} : { note: notes.join('; ') }),
  };
}
