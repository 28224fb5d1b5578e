import type { WorkUnit } from './figures.ts';

/** Divisions of gauges that are to be had, coarsest first, mm: rules and tapered gauges in fractions, vernier callipers
 *  and feeler leaves. Common practice, no source. */
const LADDER: Readonly<
  Record<WorkUnit, readonly { readonly mm: number; readonly text: string }[]>
> = {
  in: [
    { mm: 25.4 / 16, text: '1/16 in' },
    { mm: 25.4 / 32, text: '1/32 in' },
    { mm: 25.4 / 64, text: '1/64 in' },
    { mm: 0.1, text: '0.1 mm' },
    { mm: 0.05, text: '0.05 mm' },
  ],
  mm: [
    { mm: 1, text: '1 mm' },
    { mm: 0.5, text: '0.5 mm' },
    { mm: 0.1, text: '0.1 mm' },
    { mm: 0.05, text: '0.05 mm' },
  ],
};

/** Gauges that divide more finely than one of that division, coarsest first; those that would gain less than a fifth
 *  are passed over. */
export function finerGauges(
  division: number,
  unit: WorkUnit,
): readonly { readonly mm: number; readonly text: string }[] {
  return LADDER[unit].filter(({ mm }) => mm <= division * 0.8);
}
