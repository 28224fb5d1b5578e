import type { Estimate } from '../estimate.ts';

/** An item to start from when nothing is weighed. Common practice, no source: weigh where it matters. */
export interface TypicalItem {
  readonly name: string;
  /** kg each, or kg a litre, or kg a metre. */
  readonly mass: Estimate;
  readonly per: 'piece' | 'litre' | 'metre';
}

const item = (
  name: string,
  low: number,
  high: number,
  per: TypicalItem['per'] = 'piece',
): TypicalItem => ({
  name,
  mass: { low, high },
  per,
});

/** Common practice, no source. Masses as carried, with oil, without propeller where one is not named. */
export const TYPICAL_ITEMS: readonly TypicalItem[] = [
  item('outboard, 40 to 60 hp', 95, 125),
  item('outboard, 75 to 115 hp', 150, 190),
  item('outboard, 150 to 200 hp', 205, 250),
  item('outboard, 225 to 300 hp', 240, 310),
  item('outboard, 350 to 450 hp', 300, 430),
  item('outboard, two-stroke of earlier years, 115 to 150 hp', 140, 200),
  item('outboard, two-stroke of earlier years, 200 to 225 hp', 190, 230),
  item('petrol engine with drive, four cylinders', 270, 340),
  item('petrol engine with drive, eight cylinders', 390, 500),
  item('diesel engine with drive, 150 to 250 hp', 350, 500),
  item('propeller', 4, 12),
  item('outboard bracket', 30, 80),
  item('battery, lead, 70 to 110 Ah', 18, 30),
  item('battery, lithium, 100 Ah', 10, 15),
  item('petrol', 0.72, 0.78, 'litre'),
  item('diesel', 0.82, 0.86, 'litre'),
  item('water', 1, 1.03, 'litre'),
  item('wet foam', 0.3, 0.9, 'litre'),
  item('person', 65, 100),
  item('anchor', 5, 16),
  item('anchor chain, 8 mm', 1.3, 1.5, 'metre'),
  item('trim tabs with pump, a pair', 8, 15),
  item('hard top with frame', 60, 150),
  item('canvas top with frame', 15, 40),
  item('swim platform', 20, 70),
  item('ice box, filled', 20, 60),
  item('sandbag', 18, 25),
  item('light fairing compound', 0.6, 0.9, 'litre'),
];
