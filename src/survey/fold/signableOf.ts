import type { Entry } from '../../book/entry.ts';
import type { Standing } from '../../book/standing.ts';
import { checkFor } from '../edge/edgeKnown.ts';
import { isKind, KINDS } from '../kinds/kinds.ts';
import { hullOf, surveyKeyOf } from './hullOf.ts';
import { readStanding } from './readStanding.ts';

/** What a signature under a survey covers, at one time. */
export interface Signable {
  /** In the order of ids. */
  readonly entries: readonly Entry[];
  /** Rows of imports among them that are struck, as `<id>#<row>`. */
  readonly rows: readonly string[];
}

/** Carry a survey's key and change nothing of what was found: signatures themselves, and what follows from a survey. */
const NOT_SIGNED = new Set([
  'signature',
  'sheet',
  'complaint',
  'cause',
  'decision',
  'sea trial',
  'trial pair',
]);
const OF_HULL = new Set(['line', 'straightedge', 'gauge']);

/** Everything that stands of a survey and that it rests on: its own entries, who the hull is, the lines, straightedges
 *  and gauges that it names, and of each straightedge the check that speaks for it on that day. Another survey of the
 *  hull, a repair, a check that speaks for a later one, are no part of it. */
export function signableOf({ standing, struckRows }: Standing, surveyKey: string): Signable {
  const own = standing.filter(
    ({ _id, kind }) => surveyKeyOf(_id) === surveyKey && !NOT_SIGNED.has(kind),
  );
  const firstIds = new Map(standing.map((entry) => [entry._id, firstIdOf(entry)]));
  const named = new Set(own.flatMap(idsIn).map((id) => firstIds.get(id) ?? id));
  const date = readStanding(own).of('survey').at(-1)?.body.date;
  const checks = new Set(
    hullOf(standing).straightedges.flatMap((edge) => {
      const used = named.has(edge.id) ? checkFor(edge.checks, date) : undefined;
      return edge.checks?.filter((check) => check === used).map(({ id }) => id) ?? [];
    }),
  );
  const ofHull = standing.filter(
    (entry) =>
      entry.kind === 'hull' ||
      (OF_HULL.has(entry.kind) && named.has(firstIdOf(entry))) ||
      (entry.kind === 'edge check' && checks.has(firstIdOf(entry))),
  );
  return {
    entries: [...own, ...ofHull].sort((a, b) => (a._id < b._id ? -1 : 1)),
    rows: own.flatMap(({ _id }) => (struckRows.get(_id) ?? []).map((row) => `${_id}#${row}`)),
  };
}

/** Id of the entry that first stated the thing that an entry states. */
function firstIdOf(entry: Entry): string {
  return textsIn(entry, 'sameAs')[0] ?? entry._id;
}

/** Every id that an entry names, by the fields that its kind says hold ids. */
function idsIn(entry: Entry): readonly string[] {
  return isKind(entry.kind) ? KINDS[entry.kind].refers.flatMap((name) => textsIn(entry, name)) : [];
}

function textsIn({ body }: Entry, field: string): readonly string[] {
  if (typeof body !== 'object' || body === null) return [];
  const value: unknown = (body as Readonly<Record<string, unknown>>)[field];
  return [value].flat().filter((each) => typeof each === 'string');
}
