import type { WorkUnit } from '../../src/survey/figures.ts';
import type { Placement } from '../../src/survey/survey.ts';
import { showLength } from '../../src/survey/units.ts';

/** How a placement was laid and read, in words: what it rested on, which edge, where its aft end was, which gauge. */
export function laidWords(placement: Placement, unit: WorkUnit): string {
  const { held, block, blocksAt, edge, edgeLength, aftEnd, division, reads, aftMark } = placement;
  const plain = (mm: number) => plainLength(mm, unit);
  const on =
    held === 'resting'
      ? 'edge resting on the hull'
      : `edge on blocks${block === undefined ? '' : ` ${plain(block)} high`}${
          blocksAt === undefined ? '' : ` at ${plain(blocksAt[0])} and ${plain(blocksAt[1])}`
        } (the readings hold the block height, the figures do not)`;
  const parts = [
    on,
    ...(edge === undefined ? [] : [edge]),
    ...(edgeLength === undefined ? [] : [`${plain(edgeLength)} long`]),
    ...(aftMark === undefined ? [] : [`end ${aftMark} aft`]),
    ...(aftEnd === undefined ? [] : [`aft end at ${plain(aftEnd)}`]),
    ...(division === undefined
      ? []
      : [`read to ${plain(division)}${reads === undefined ? '' : `, ${reads}`}`]),
  ];
  return parts.join(', ');
}

/** A length of the set-up, in the person's unit, as exactly as it was given. */
export function plainLength(mm: number, unit: WorkUnit): string {
  return unit === 'mm' ? `${Number(mm.toFixed(3))} mm` : inches(mm);
}

function inches(mm: number): string {
  const parts = (mm / 25.4) * 64;
  return Math.abs(parts - Math.round(parts)) < 1e-6
    ? `${showLength(mm, { unit: 'in', denominator: 64 })} in`
    : `${Number((mm / 25.4).toFixed(3))} in`;
}
