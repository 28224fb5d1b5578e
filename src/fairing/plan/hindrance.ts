import { showPlace, showTolerance, type WorkUnit } from '../../survey/figures.ts';
import { showLength } from '../../survey/units.ts';
import type { Hindrance } from './plan.ts';
import { stationWords } from './stations.ts';

/** What would have to come off where, and what is in the way, for a person. */
export function hindranceWords(
  { at, needs }: { readonly at: number; readonly needs: number },
  grindLimit: number | undefined,
  unit: WorkUnit,
): Hindrance {
  const shown =
    unit === 'in'
      ? `${showLength(needs, { unit, denominator: 32 })} in`
      : `${showLength(needs, { unit, decimals: 1 })} mm`;
  const place = at < 1 ? 'the transom' : showPlace(at, unit);
  const off = `${shown} would have to come off at ${place}`;
  if (grindLimit === undefined) {
    return {
      limit: 'no grind limit stated',
      at,
      needs,
      words: `${off}, and no grind limit is stated: fill instead, or state how deep may be ground.`,
    };
  }
  return {
    limit: 'grind limit',
    at,
    needs,
    allowed: grindLimit,
    words: `${off}; your limit is ${showTolerance(grindLimit, unit)}: fill the rest instead, or raise the limit.`,
  };
}

/** A forward limit that leaves nothing to lay a target over. */
export function tooNearTransom(forward: number, unit: WorkUnit): Hindrance {
  return {
    limit: 'forward limit too near the transom',
    at: forward,
    words: `A forward limit of ${stationWords(forward, unit)} leaves no bottom to work on: set it farther forward.`,
  };
}
