import type { HullFeature } from './fold/hullOf.ts';
import type { Side, Typed } from './survey.ts';

/** A station that probably cannot be read, for a person to confirm: it is no void by itself. */
export interface ProposedVoid {
  readonly station: Typed;
  /** "strake", "through-hull (intake)"; several joined by "and". */
  readonly reason: string;
  /** Ids of the features. */
  readonly features: readonly string[];
}

/** The stations of a line that fall on a feature of the hull, edges included, in the order given.
 *  `line`: its side and its offset from the keel along the bottom, mm. A feature astride the keel reaches its offsets
 *  to either side; one that begins at the keel touches the centre line. */
export function proposedVoids(
  features: readonly HullFeature[],
  line: { readonly side: Side; readonly offset: number },
  stations: readonly Typed[],
): readonly ProposedVoid[] {
  const beside = features.filter((feature) => isCrossed(feature, line));
  return stations.flatMap((station) => {
    const under = beside.filter(
      ({ stationFrom, stationTo }) => stationFrom.mm <= station.mm && station.mm <= stationTo.mm,
    );
    if (under.length === 0) return [];
    const reasons = [...new Set(under.map(inWords))];
    return [{ station, reason: reasons.join(' and '), features: under.map(({ id }) => id) }];
  });
}

function isCrossed(
  feature: HullFeature,
  { side, offset }: { readonly side: Side; readonly offset: number },
): boolean {
  const reached = feature.offsetFrom.mm <= offset && offset <= feature.offsetTo.mm;
  if (!reached) return false;
  if (feature.side === side || feature.side === 'centre' || side === 'centre') return true;
  return feature.side === 'both';
}

function inWords({ feature, note }: HullFeature): string {
  return note === undefined || note.trim() === '' ? feature : `${feature} (${note.trim()})`;
}
