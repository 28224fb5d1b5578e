import type { LogReadings } from '../log/logReadings.ts';
import type { Stated } from './readStanding.ts';
import type { Disagreement, Unused } from './report.ts';

export interface KeptLogs {
  /** By the id of the placement. */
  readonly logs: ReadonlyMap<string, LogReadings>;
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
}

/** Which placements are logs whose files are kept by imports. Where two files speak of one placement, the last by id
 *  is shown and they are a disagreement. `placementOf`: the id by which a placement is known, from any of those that
 *  entries call it by. */
export function keptLogs(
  imports: readonly Stated<'import'>[],
  placementOf: (id: string) => string | undefined,
): KeptLogs {
  const logs = new Map<string, LogReadings>();
  const setAside: Unused[] = [];
  const disagreements: Disagreement[] = [];
  for (const { id, body } of imports) {
    const { kept, placements } = body;
    if (kept === undefined) continue;
    placements.forEach((reference, place) => {
      const placement = placementOf(reference);
      if (placement === undefined) {
        const reason = 'the placement of its log does not stand or has not arrived';
        setAside.push({ id, kind: 'import', reason });
        return;
      }
      const { lay, count } = kept.lays[place];
      const before = logs.get(placement)?.kept;
      if (before !== undefined) {
        disagreements.push({ about: 'two logs of one placement', entries: [before.entry, id] });
      }
      const { name, sha256, given } = kept;
      logs.set(placement, { count, kept: { entry: id, name, sha256, lay, given } });
    });
  }
  return { logs, disagreements, setAside };
}
