import type { BoatFile } from '../running/file/readBoat.ts';
import type { CaseAtSpeed, WhatIf } from '../running/whatIf/whatIf.ts';
import { largerLever, whatIfWords } from '../running/whatIf/whatIfWords.ts';
import { LOAD_STATES } from '../running/weights/ledger.ts';
import { loadOf, shiftBetween } from '../running/weights/loads.ts';
import { rounded } from './rounded.ts';

/** What `aftrun running --json` prints: lengths in mm, masses in kg, speeds in m/s, forces in N, power in W, degrees. */
export function runningJson({ name, boat, units }: BoatFile, found: WhatIf): unknown {
  const answer = {
    ...(name !== undefined && { boat: name }),
    loads: Object.fromEntries(LOAD_STATES.map((state) => [state, loadOf(boat.items, state)])),
    shift: shiftBetween(boat.items, 'as designed', 'as now'),
    tail: boat.tail ?? null,
    cases: found.cases.map(({ name, load, curve, begins }) => ({
      name,
      load,
      curve: curve.map(speedJson),
      begins,
    })),
    at: found.at,
    changes: found.changes,
    weightLarger: found.weightLarger ?? null,
    lever: largerLever(found) ?? null,
    draws: found.draws,
    words: whatIfWords(found, units),
  };
  const short = (_: string, value: unknown) =>
    typeof value === 'number'
      ? Math.abs(value) < 0.1
        ? rounded(value, 8)
        : rounded(value, 5)
      : value;
  return JSON.parse(JSON.stringify(answer, short));
}

function speedJson({ speed, runs, limit, stability, spread, porpoises }: CaseAtSpeed): unknown {
  return {
    speed,
    ...runs,
    limit,
    stability,
    ...(spread && { spread }),
    ...(porpoises !== undefined && { porpoises }),
  };
}
