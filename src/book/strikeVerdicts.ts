import { rings } from './rings.ts';

export type StrikeVerdict = 'stands' | 'struck' | 'cycle';

/** Of things that strike one another: which stand, which are struck by one that stands, and which are caught in a
 *  ring of strikes. `strikesOf`: for each id, the ids that it strikes, none twice; ids that are no key of it are
 *  passed over.
 *  What nothing undecided strikes is decided first, and what follows from it, until only rings and what hangs on them
 *  are left. A ring that nothing outside it can decide any more is caught, and strikes nothing. Then again. The
 *  answer does not depend on the order of the ids. */
export function strikeVerdicts(
  strikesOf: ReadonlyMap<string, readonly string[]>,
): ReadonlyMap<string, StrikeVerdict> {
  const ids = [...strikesOf.keys()];
  const places = new Map(ids.map((id, place) => [id, place]));
  const targets = [...strikesOf.values()].map((struck) =>
    struck.map((id) => places.get(id)).filter((place) => place !== undefined),
  );
  const strikers: number[][] = ids.map(() => []);
  targets.forEach((struck, place) => {
    for (const target of struck) strikers[target].push(place);
  });

  const verdicts: (StrikeVerdict | undefined)[] = ids.map(() => undefined);
  /** How many strikers of each may yet turn out to stand. */
  const waiting = strikers.map((list) => list.length);
  const ready = ids.map((_, place) => place).filter((place) => waiting[place] === 0);

  const decide = (place: number, verdict: StrikeVerdict): void => {
    verdicts[place] = verdict;
    for (const target of targets[place]) {
      if (verdicts[target] !== undefined) continue;
      if (verdict === 'stands') {
        ready.push(target);
        continue;
      }
      waiting[target] -= 1;
      if (waiting[target] === 0) ready.push(target);
    }
  };
  const settle = (): void => {
    for (let place = ready.pop(); place !== undefined; place = ready.pop()) {
      if (verdicts[place] !== undefined) continue;
      const hit = strikers[place].some((striker) => verdicts[striker] === 'stands');
      decide(place, hit ? 'struck' : 'stands');
    }
  };
  const undecided = (place: number): boolean => verdicts[place] === undefined;

  settle();
  while (ids.some((_, place) => undecided(place))) {
    for (const ring of rings(targets, undecided)) {
      // A ring that was partly decided meanwhile may have fallen apart, and waits for the next round.
      if (!ring.every(undecided)) continue;
      const members = new Set(ring);
      const closed = ring.every((member) =>
        strikers[member].every((striker) => !undecided(striker) || members.has(striker)),
      );
      if (!closed) continue;
      for (const member of ring) verdicts[member] = 'cycle';
      for (const member of ring) decide(member, 'cycle');
      settle();
    }
  }
  return new Map(ids.map((id, place) => [id, verdicts[place] ?? 'cycle']));
}
