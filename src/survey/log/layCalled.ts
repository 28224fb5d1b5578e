import type { MeasuredRow } from '../csv/measuredRow.ts';
import { lineName } from '../lineName.ts';

/** How a person would call the lay that a row belongs to. */
export function layCalled(row: MeasuredRow, workUnit: 'mm' | 'in'): string {
  const name = row.line ?? lineName(row.side, row.offset.mm, workUnit);
  const again = row.repeat > 1 ? `, repeat ${row.repeat}` : '';
  return `line ${name}, placement ${row.placement}${again}`;
}
