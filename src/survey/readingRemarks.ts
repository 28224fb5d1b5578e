import type { Slip } from '../fit/slip.ts';
import type { Remark, Repeatability } from './assessment.ts';
import { showMeasured, type WorkUnit } from './figures.ts';
import type { Line } from './survey.ts';
import type { UsableReading } from './usable.ts';

/** Probability from which it is said that readings scatter more than stated; told of 1 line in 200 whose
 *  readings do not, and of 3 in 4 whose scatter is twice as stated (16 stations, simulated). */
export const SCATTER_TOLD = 0.6;

/** A reading that its neighbours do not bear out: pointed out, and in until a person strikes it. */
export function slipRemark(
  line: Line,
  { reading, placement, gap }: UsableReading,
  { expected, u }: Slip,
  unit: WorkUnit,
): Remark {
  // Spoken of as it was read, with the block under it and the gauge uncorrected.
  const asRead = expected + (reading.gap.mm - gap);
  return {
    about: 'placement',
    line: line.name,
    kind: 'possible slip',
    words: `${line.name}, placement ${placement.name}: ${reading.gap.text} at station ${reading.station.text} stands far off what the other readings lead one to expect there, about ${showMeasured(asRead, u, unit)}. A slip of the pen, or something on the hull? It counts until you strike it.`,
  };
}

export function scatterRemark(line: Line, { from }: Repeatability): Remark {
  const taken = from === 'house default' ? 'was taken' : 'was stated';
  return {
    about: 'line',
    line: line.name,
    kind: 'scatter beyond stated',
    words: `${line.name}: its readings scatter more than ${taken}. Lay the edge again and read the line once more: repeats show how much they really scatter.`,
  };
}
