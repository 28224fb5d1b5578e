import type { Range, WorkPlan, WorkSum } from '../../src/fairing/plan/plan.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';

/** What the work takes, for whoever buys the material and plans the days: not for the hull's side. */
export interface MaterialView {
  readonly rows: readonly {
    readonly what: string;
    readonly cells: readonly string[];
  }[];
  readonly heads: readonly string[];
  readonly notes: readonly string[];
}

const NOT_STATED = 'not stated';

/** Litres and kilograms, as ranges, a column a side and one for all. */
export function materialView(plan: WorkPlan, unit: WorkUnit): MaterialView {
  const sums: readonly WorkSum[] = [...plan.sides, plan.total];
  const row = (what: string, of: (sum: WorkSum) => string) => ({ what, cells: sums.map(of) });
  const litres = (range: Range | undefined) => ranged(range, 1e6, 'l');
  const area = (mm2: number | undefined) =>
    mm2 === undefined ? NOT_STATED : mm2 === 0 ? 'none' : areaText(mm2, unit);
  return {
    heads: [...plan.sides.map(({ side }) => side.toUpperCase()), 'ALL'],
    rows: [
      row('Area to fill', ({ fill }) => area(fill.area)),
      row('Filler, cured', ({ fill }) => litres(fill.volume)),
      row('Filler, weight', ({ weight }) => ranged(weight, 1000, 'kg')),
      row('Passes, at most', ({ passes }) => (passes === undefined ? NOT_STATED : String(passes))),
      row('Batches', ({ batches }) => ranged(batches, 1, '')),
      row('Area to grind', ({ grind }) => area(grind.area)),
      row('Ground off', ({ grind }) => litres(grind.volume)),
      row('Hours', ({ hours }) => ranged(hours, 1, 'h')),
    ],
    notes: [
      'Low to high: about 95 of 100 times in between, as far as the readings tell; what is stated of the product is taken as exact.',
      ...plan.total.without.map(({ line, why }) => `${line} is not in the sums: ${why}.`),
      ...plan.houseDefaults,
    ],
  };
}

function ranged(range: Range | undefined, size: number, unit: string): string {
  if (range === undefined) return NOT_STATED;
  if (range.likely === 0) return 'none';
  const two = (value: number) => String(Number((value / size).toPrecision(2)));
  const [low, high] = [two(Math.max(0, range.low)), two(range.high)];
  return `${low === high ? low : `${low} to ${high}`} ${unit}`.trim();
}

function areaText(mm2: number, unit: WorkUnit): string {
  const value = unit === 'mm' ? mm2 / 1e6 : mm2 / 304.8 ** 2;
  return `${Number(value.toPrecision(2))} ${unit === 'mm' ? 'm²' : 'sq ft'}`;
}
