import { MASS_UNITS } from '../../../src/running/massUnits.ts';
import type { LedgerItem, Place } from '../../../src/running/weights/ledger.ts';

export const lb = (pounds: number) => ({ value: pounds * MASS_UNITS.lb });
export const inches = (length: number): Place => ({ x: { value: length * 25.4 } });

/** Tern Reach (invented): two engines of 410 lb replaced by two of 565 lb further aft, batteries moved aft; proposed,
 *  200 lb carried 200 in forward of the transom. */
export const REPOWER: readonly LedgerItem[] = [
  { act: 'aboard', name: 'boat as weighed', mass: lb(5200), at: inches(84) },
  { act: 'removed', name: 'old engines', mass: lb(820), from: inches(-8), since: 'as now' },
  { act: 'added', name: 'new engines', mass: lb(1130), to: inches(-26), since: 'as now' },
  {
    act: 'moved',
    name: 'batteries',
    mass: lb(130),
    from: inches(110),
    to: inches(10),
    since: 'as now',
  },
  { act: 'added', name: 'sandbags', mass: lb(200), to: inches(200), since: 'as proposed' },
];
