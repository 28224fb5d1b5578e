import type { Edge, Placement } from '../survey.ts';
import { sagUnder } from './sagUnder.ts';
import { tidyMm } from './tidyMm.ts';

export type SagUse =
  | {
      readonly ok: true;
      /** Error at a station, mm: negative where the edge hangs away from the hull. */
      readonly at: (station: number) => number;
      /** Standard uncertainty of it, as a part of it. */
      readonly share: number;
      readonly words: string;
    }
  | { readonly ok: false; readonly words: string };

/** House default: section, stiffness and pull are known to about a tenth. */
const SHARE = 0.1;

/** What the sag of an edge does to a placement under a hull: it hangs away from it, so its error is negative between
 *  its supports. A bar is carried where its blocks stand; a string by its ends, or by the blocks where they are stated.
 *  A resting bar is pushed up by hand against its contacts: where the hands are is not known, so nothing is taken off,
 *  and that is said. Undefined where nothing is known of the edge's sag. */
export function sagUse(edge: Edge, placement: Placement): SagUse | undefined {
  const { sag, length } = edge;
  if (sag === undefined || edge.kind === 'laser line') return undefined;
  const called = edge.name === '' ? 'The straightedge' : edge.name;
  const { aftEnd, blocksAt, held } = placement;
  if (sag.from === 'tension') {
    const ends =
      blocksAt !== undefined
        ? sorted(blocksAt)
        : aftEnd !== undefined && length !== undefined
          ? ([aftEnd, aftEnd + length] as const)
          : undefined;
    if (ends === undefined) {
      return no(`${called}: its sag is not taken off, since where its ends stood is not recorded.`);
    }
    const hangs = sagUnder(sag, { length: ends[1] - ends[0], at: ends });
    return hangs && yes(hangs, 0, (ends[0] + ends[1]) / 2, called);
  }
  if (held === 'resting') {
    const most =
      length === undefined ? undefined : sagUnder(sag, { length, at: [0, length] })?.(length / 2);
    const much =
      most === undefined ? '' : ` (held at its ends alone it would hang ${tidyMm(most)} mm)`;
    return no(
      `${called} was pushed up by hand against the hull, so how much it sagged is not known and nothing is taken off${much}. On two blocks its sag can be worked out.`,
    );
  }
  if (blocksAt === undefined || aftEnd === undefined || length === undefined) {
    const lacking =
      blocksAt === undefined
        ? 'where its blocks stood'
        : aftEnd === undefined
          ? 'where its aft end lay'
          : 'how long it is';
    return no(`${called}: its sag is not taken off, since ${lacking} is not recorded.`);
  }
  const [aft, fore] = sorted(blocksAt);
  const hangs = sagUnder(sag, { length, at: [aft - aftEnd, fore - aftEnd] });
  if (hangs === undefined) {
    return no(`${called}: its sag is not taken off, since its blocks do not stand under it.`);
  }
  return yes(hangs, aftEnd, (aft + fore) / 2, called);
}

function yes(hangs: (u: number) => number, from: number, middle: number, called: string): SagUse {
  const most = hangs(middle - from);
  return {
    ok: true,
    at: (station) => -hangs(station - from),
    share: SHARE,
    words: `${called} hangs ${tidyMm(most)} mm midway between its supports by its own weight; that is taken off.`,
  };
}

function no(words: string): SagUse {
  return { ok: false, words };
}

function sorted([a, b]: readonly [number, number]): readonly [number, number] {
  return a < b ? [a, b] : [b, a];
}
