import type { HullState } from '../../src/survey/fold/hullOf.ts';
import type { LayReach } from '../../src/survey/gapRefusal.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';

/** What decides which gaps can be, of a laying that is about to be stated. */
export function layReach(
  body: BodyOf<'placement'> | BodyOf<'placement across'> | undefined,
  straightedges: HullState['straightedges'],
): LayReach {
  if (body === undefined) return {};
  const edge = straightedges.find(({ id }) => id === body.edge);
  const long = body.edgeLength ?? edge?.length;
  const { aftEnd } = body as Partial<BodyOf<'placement'>>;
  return {
    held: body.held,
    ...(body.block !== undefined && { block: body.block.mm }),
    ...(long !== undefined && { edgeLength: long.mm }),
    ...(aftEnd !== undefined && { aftEnd: aftEnd.mm }),
  };
}
