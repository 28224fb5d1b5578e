import type { Edge } from '../survey.ts';
import type { Straightedge } from './hullOf.ts';

/** What is known, beyond name and length, of the straightedges that a survey's placements use. Length goes with it only
 *  where two of them bear one name. */
export function edgesUsed(
  straightedges: readonly Straightedge[],
  placements: readonly { readonly body: { readonly edge?: string } }[],
): readonly Edge[] {
  const ids = new Set(placements.map(({ body }) => body.edge));
  const used = straightedges.filter(({ id }) => ids.has(id));
  return used.flatMap((edge): readonly Edge[] => {
    const { name, length } = edge;
    const known = edgeFacts(edge);
    if (Object.keys(known).length === 0) return [];
    const twin = used.some((other) => other !== edge && other.name === name);
    return [{ name, ...(twin && length !== undefined && { length: length.mm }), ...known }];
  });
}

/** What is known of a straightedge beyond its name and length. */
export function edgeFacts({
  type,
  bound,
  sag,
  checks,
}: Pick<Straightedge, 'type' | 'bound' | 'sag' | 'checks'>): Omit<Edge, 'name' | 'length'> {
  return {
    ...(type !== undefined && type !== 'bar' && { kind: type }),
    ...(bound !== undefined && { bound: { size: bound.size.mm, over: bound.over.mm } }),
    ...(checks !== undefined && { checks: checks.map(({ id: _id, ...check }) => check) }),
    ...(sag !== undefined && { sag }),
  };
}
