import type { Placement } from '../survey.ts';

/** How far from the hull the blocks hold the edge at a station, mm: what comes off a gap. Where the fore block is of
 *  another height than the aft one, that grows evenly from one to the other and past them, where it is known where
 *  they stand; else the aft height stands for both (a difference only tilts the edge, and a tilt drops out).
 *  Undefined where the edge rests on the hull, or nobody stated the height. */
export function blockUnder(
  {
    held,
    block,
    blockFore,
    blocksAt,
  }: Pick<Placement, 'held' | 'block' | 'blockFore' | 'blocksAt'>,
  station: number,
): number | undefined {
  if (held !== 'blocks' || block === undefined) return undefined;
  if (blockFore === undefined || blocksAt === undefined) return block;
  const [aft, fore] = blocksAt[0] < blocksAt[1] ? blocksAt : [blocksAt[1], blocksAt[0]];
  return block + ((blockFore - block) * (station - aft)) / (fore - aft);
}
