import type { Placement, Typed } from './survey.ts';

/** House default: no gap is believed that is more than this past the block height, mm. */
export const LARGEST_GAP = 30;
/** House default: under a shorter edge no gap is believed above this part of its length. */
export const LARGEST_GAP_OF_EDGE = 1 / 20;
/** House default: the division of a gauge that nobody stated, used only to allow small negative readings, mm. */
export const UNSTATED_DIVISION = 0.5;
const ROUNDING = 1e-9;

/** What of a laying decides which gaps can be; lengths in mm. */
export type LayReach = Partial<
  Pick<Placement, 'held' | 'block' | 'blockFore' | 'aftEnd' | 'edgeLength' | 'division'>
>;

/** Why a gap cannot be, as what was expected instead; undefined where it can. One answer for a file's cell and for a
 *  typed reading. `gap`: mm, block not taken off. `division`: of the gauge that it was read with, where it differs
 *  from the lay's. */
export function gapRefusal(gap: number, lay: LayReach, division?: number): string | undefined {
  const blocks = lay.held === 'blocks';
  if (blocks && gap < 0) return '0 or more: on blocks the edge stands clear of the hull';
  const step = division ?? lay.division ?? UNSTATED_DIVISION;
  if (gap < -2 * step - ROUNDING) {
    return '0 or more, within two divisions of the gauge: an edge does not sink in';
  }
  if (blocks && lay.block === undefined) return undefined;
  const block =
    blocks && lay.block !== undefined ? Math.max(lay.block, lay.blockFore ?? lay.block) : undefined;
  const past = block === undefined ? gap : gap - block;
  const over = block === undefined ? '' : ` past the block height of ${tidyMm(block)} mm`;
  if (past > LARGEST_GAP + ROUNDING) return `at most ${LARGEST_GAP} mm${over}`;
  const reach = lay.edgeLength === undefined ? LARGEST_GAP : lay.edgeLength * LARGEST_GAP_OF_EDGE;
  if (past > reach + ROUNDING) {
    return `at most ${tidyMm(reach)} mm${over}: more than a straightedge ${tidyMm(lay.edgeLength ?? LARGEST_GAP)} mm long could show`;
  }
  return undefined;
}

/** That a station lies past the ends of the straightedge, in words; undefined where it does not, or where it cannot be
 *  told. Stops nothing. */
export function beyondEdge(station: Typed, { aftEnd, edgeLength }: LayReach): string | undefined {
  if (aftEnd === undefined || edgeLength === undefined) return undefined;
  const along = station.mm - aftEnd;
  if (along >= -1 && along <= edgeLength + 1) return undefined;
  const reach = `${tidyMm(aftEnd)} to ${tidyMm(aftEnd + edgeLength)} mm`;
  return `station ${station.text} lies beyond the straightedge, which reaches from ${reach}`;
}

/** At most two decimals, none that are 0. */
function tidyMm(mm: number): string {
  return String(Number(mm.toFixed(2)));
}
