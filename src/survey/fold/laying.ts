import type { BodyOf } from '../kinds/kinds.ts';
import type { Placement } from '../survey.ts';
import type { HullState } from './hullOf.ts';
import { pickTyped } from './pickTyped.ts';
import type { Stated } from './readStanding.ts';
import type { Unused } from './report.ts';

/** How an edge was laid, along a line or across lines, apart from where its ends were. */
export type Laying = Omit<
  Placement,
  'id' | 'name' | 'repeat' | 'readings' | 'voids' | 'later' | 'aftEnd' | 'aftMark'
>;

/** How it was laid and read; what the placement says itself goes before what its edge and gauge say. */
export function layingOf(
  body: BodyOf<'placement'> | BodyOf<'placement across'>,
  hull: HullState,
  period: number | undefined,
): Laying {
  const edge = hull.straightedges.find(({ id }) => id === body.edge);
  const gauge = hull.gauges.find(({ id }) => id === body.gauge);
  const edgeLength = body.edgeLength ?? edge?.length;
  const division = body.division ?? gauge?.division;
  const reads = body.reads ?? gauge?.reads;
  return {
    held: body.held,
    ...(body.block !== undefined && { block: body.block.mm }),
    ...(body.blockFore !== undefined && { blockFore: body.blockFore.mm }),
    ...(body.blocksAt !== undefined && {
      blocksAt: [pickTyped(body.blocksAt[0]).mm, pickTyped(body.blocksAt[1]).mm] as const,
    }),
    ...(body.face !== undefined && { face: body.face }),
    ...(edge !== undefined && { edge: edge.name }),
    ...(edgeLength !== undefined && { edgeLength: edgeLength.mm }),
    ...(gauge !== undefined && { gauge: gauge.name }),
    ...(division !== undefined && { division: division.mm }),
    ...(reads !== undefined && { reads }),
    ...(period !== undefined && { supportPeriod: period }),
  };
}

/** References of a placement that lead nowhere: it stands all the same, but reads as if they were not stated. */
export function danglingOf(
  kind: 'placement' | 'placement across',
  { id, body }: Stated<'placement'> | Stated<'placement across'>,
  hull: HullState,
  period: number | undefined,
): readonly Unused[] {
  const lost = [
    ...(body.edge !== undefined && !isThere(hull.straightedges, body.edge) ? ['straightedge'] : []),
    ...(body.gauge !== undefined && !isThere(hull.gauges, body.gauge) ? ['gauge'] : []),
    ...(body.support !== undefined && period === undefined ? ['support'] : []),
  ];
  return lost.map((what) => ({
    id,
    kind,
    reason: `its ${what} does not stand or has not arrived; the placement counts without it`,
  }));
}

/** Whether a list of the hull's things has one of an id. */
export function isThere(list: readonly { readonly id: string }[], id: string): boolean {
  return list.some((item) => item.id === id);
}
