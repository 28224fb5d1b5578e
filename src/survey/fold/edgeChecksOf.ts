import type { BodyOf } from '../kinds/kinds.ts';
import type { EdgeCheck, PairsPoint, ReversalPoint } from '../survey.ts';
import type { Stated } from './readStanding.ts';
import type { Disagreement, Unused } from './report.ts';
import { firstStated, thingsOf, type Things } from './thingsOf.ts';

/** A check as it speaks of one edge, and the id of the entry that stated it. */
export type CheckOfEdge = EdgeCheck & { readonly id: string };

/** Checks by the edge that they tell of, in the order of their ids. One of three edges in pairs tells of all three.
 *  A check whose edge does not stand or has not arrived is set aside. */
export function edgeChecksOf(
  stated: readonly Stated<'edge check'>[],
  edges: Things<'straightedge'>,
): {
  readonly byEdge: ReadonlyMap<string, readonly CheckOfEdge[]>;
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
} {
  const things = thingsOf(stated, firstStated, ({ body }) => {
    const name = edges.find.get(body.edge)?.shown.body.name;
    return `the check of ${name === undefined ? 'a straightedge' : `the straightedge ${name}`}`;
  });
  const byEdge = new Map<string, CheckOfEdge[]>();
  const setAside: Unused[] = [];
  const add = (edge: string | undefined, check: CheckOfEdge): boolean => {
    const id = edge === undefined ? undefined : edges.find.get(edge)?.id;
    if (id === undefined) return false;
    const before = byEdge.get(id);
    if (before === undefined) byEdge.set(id, [check]);
    else before.push(check);
    return true;
  };
  for (const { id, shown } of things.list) {
    const { body } = shown;
    if (!add(body.edge, { ...checkFrom(body, 0), id })) {
      const reason = 'its straightedge does not stand or has not arrived';
      setAside.push({ id: shown.id, kind: 'edge check', reason });
    }
    if (body.method === 'three edges') {
      add(body.second, { ...checkFrom(body, 1), id });
      add(body.third, { ...checkFrom(body, 2), id });
    }
  }
  return { byEdge, disagreements: things.disagreements, setAside };
}

/** What a check's entry says of the first, second or third edge. */
export function checkFrom(body: BodyOf<'edge check'>, turn: 0 | 1 | 2): EdgeCheck {
  const facts = {
    ...(body.date !== undefined && { date: body.date }),
    ...(body.face !== undefined && { face: body.face }),
    readTo: body.readTo.mm,
  };
  if (body.method === 'reversal') {
    const points = body.points.flatMap(({ at, apart }): readonly ReversalPoint[] =>
      apart === undefined ? [] : [{ at: at.mm, apart: apart.mm }],
    );
    return { method: 'reversal', ...facts, points };
  }
  const points = body.points.flatMap((point): readonly PairsPoint[] => {
    const { at, withSecond, secondWithThird, withThird } = point;
    if (withSecond === undefined || secondWithThird === undefined || withThird === undefined) {
      return [];
    }
    const gaps = [withSecond.mm, secondWithThird.mm, withThird.mm];
    return [
      {
        at: at.mm,
        withSecond: gaps[turn],
        secondWithThird: gaps[(turn + 1) % 3],
        withThird: gaps[(turn + 2) % 3],
      },
    ];
  });
  return { method: 'three edges', ...facts, points };
}
