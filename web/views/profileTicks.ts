import { ticks } from 'd3';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { UNITS, showLength } from '../../src/survey/units.ts';

export interface Tick {
  readonly at: number;
  readonly label: string;
}

/** Stations along the bottom, no closer than asked: whole mm, or inches by 1, 3, 6, 12 and so on.
 *  `closest`: mm on the hull that a label needs. */
export function stationTicks(
  from: number,
  to: number,
  closest: number,
  unit: WorkUnit,
): readonly Tick[] {
  const { mm } = UNITS[unit];
  const steps =
    unit === 'in' ? [1, 3, 6, 12, 24, 48, 96, 192] : [10, 20, 50, 100, 200, 500, 1000, 2000, 5000];
  const step = steps.find((each) => each * mm >= closest) ?? steps[steps.length - 1];
  const first = Math.max(0, Math.ceil(from / mm / step - 1e-9));
  const last = Math.floor(to / mm / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => ({
    at: (first + i) * step * mm,
    label: String((first + i) * step),
  }));
}

/** Heights either side of the straight line, unsigned: above the line is hollow, below it proud. Inches in fractions
 *  no finer than 32nds, mm no finer than tenths. `closest`: mm of height that a label needs. */
export function heightTicks(
  low: number,
  high: number,
  closest: number,
  unit: WorkUnit,
): readonly Tick[] {
  const steps =
    unit === 'in'
      ? [1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4].map((part) => part * UNITS.in.mm)
      : [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100];
  const step = steps.find((each) => each >= closest) ?? steps[steps.length - 1];
  return ticks(Math.ceil(low / step), Math.floor(high / step), 1000)
    .filter(Number.isInteger)
    .map((count) => {
      const mm = count * step;
      const size = Math.abs(mm);
      const label =
        unit === 'in'
          ? showLength(size, { unit, denominator: 32 })
          : String(Number(size.toFixed(1)));
      return { at: mm, label };
    });
}
