import { showStretch, type WorkUnit } from '../figures.ts';
import type { Edge, EdgeCheck, Placement } from '../survey.ts';
import type { EdgeError } from './edgeError.ts';

export type PlaceOnEdge =
  | { readonly ok: true; readonly along: (station: number) => number }
  | { readonly ok: false; readonly why: string };

/** A station may lie this far past the checked stretch, mm: a pencil mark. */
const SAME_PLACE = 1;

/** Where a placement's stations lie along its edge, mm from end A, so that a check can correct them. Nothing is
 *  guessed: where a fact was not recorded, where the other face was towards the hull, or where a reading lies beyond
 *  what was checked, the reason, as the end of a sentence in the person's unit. A placement is corrected as a whole or not
 *  at all. */
export function placeOnEdge(
  placement: Placement,
  edge: Edge,
  check: EdgeCheck,
  { domain: [from, to] }: Pick<EdgeError, 'domain'>,
  unit: WorkUnit,
): PlaceOnEdge {
  const { aftEnd, aftMark, face } = placement;
  if ((edge.kind ?? 'bar') === 'bar') {
    const checked = check.face ?? 'marked';
    if (face === undefined) return no('which face was towards the hull is not recorded');
    if (face !== checked) {
      return no(
        `the ${face === 'other' ? 'unmarked' : 'marked'} face was towards the hull, and the check holds for the ${checked === 'other' ? 'unmarked' : 'marked'} one alone`,
      );
    }
  }
  if (aftEnd === undefined) return no('where its aft end lay is not recorded');
  if (aftMark === undefined) return no('which of its ends was aft is not recorded');
  if (aftMark === 'B' && edge.length === undefined) {
    return no('end B was aft, and how long it is is not stated');
  }
  const { length } = edge;
  const along = (station: number) =>
    aftMark === 'B' && length !== undefined ? length - (station - aftEnd) : station - aftEnd;
  const beyond = placement.readings.find(({ station }) => {
    const u = along(station.mm);
    return u < from - SAME_PLACE || u > to + SAME_PLACE;
  });
  if (beyond !== undefined) {
    return no(
      `station ${beyond.station.text} lies beyond the stretch that was checked (${showStretch(from, to, unit)} from end A)`,
    );
  }
  return { ok: true, along: (station) => Math.min(to, Math.max(from, along(station))) };
}

function no(why: string): PlaceOnEdge {
  return { ok: false, why };
}
