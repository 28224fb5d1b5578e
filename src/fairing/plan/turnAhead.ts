import type { Judged } from '../../survey/assessment.ts';
import { brokenLine } from '../brokenLine.ts';

/** Shortest stretch ahead that a slope is taken from, mm. */
const AHEAD = 100;

/** Turn from the finished surface aft of the limit into the hull ahead of it, each over the feather's length:
 *  mm per mm, positive towards the water going forward, and whether it is harsher than `turn`. Undefined where too
 *  little was read ahead. */
export function turnAhead(
  { judgement }: Judged,
  fore: number,
  depthAt: (x: number) => number,
  length: number,
  turn: number,
): { readonly turn: number; readonly harsher: boolean } | undefined {
  const { profile, judged } = judgement;
  const reach = Math.min(Math.max(length, AHEAD), judged[1] - fore, fore - judged[0]);
  if (reach < AHEAD) return undefined;
  const surface = brokenLine(
    profile.map((p) => p.x),
    profile.map((p) => p.z),
  );
  const finished = (at: number) => surface(at) + depthAt(at);
  const before = (finished(fore) - finished(fore - reach)) / reach;
  const after = (surface(fore + reach) - surface(fore)) / reach;
  const turned = after - before;
  return { turn: turned, harsher: Math.abs(turned) > turn };
}
