import { fault, type Fault } from '../csv/fault.ts';
import type { MeasuredRow } from '../csv/measuredRow.ts';
import { layCalled } from './layCalled.ts';
import { backwards, isTimeHeader, readTime, TIME_EXPECTED } from './readTime.ts';

/** Rows of a log whose time cannot be read, or lies before that of the row before in the same lay. */
export function timeFaults(rows: readonly MeasuredRow[], workUnit: 'mm' | 'in'): readonly Fault[] {
  const clocks = new Map<string, { time: number; row: number; text: string }>();
  const faults: Fault[] = [];
  let last = -1;
  for (const row of rows) {
    // In the wide form one row of the file is several of these.
    if (row.row === last || row.extra === undefined) continue;
    last = row.row;
    const header = Object.keys(row.extra).find(isTimeHeader);
    if (header === undefined) continue;
    const text = row.extra[header];
    const time = readTime(text);
    if (time === undefined) {
      faults.push(fault(row.row, header, text, TIME_EXPECTED));
      continue;
    }
    const called = layCalled(row, workUnit);
    const before = clocks.get(called);
    if (before !== undefined && time < before.time) {
      const expected = backwards(before.row, before.text, called);
      faults.push(fault(row.row, header, text, expected));
    }
    clocks.set(called, { time, row: row.row, text });
  }
  return faults;
}
