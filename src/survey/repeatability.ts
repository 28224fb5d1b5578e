import { repeatScatter } from '../fit/repeatScatter.ts';
import { tiedGroups } from '../fit/tied.ts';
import type { Repeatability } from './assessment.ts';
import type { Placement, Survey } from './survey.ts';
import { byPeriod, houseDivision, SAME_STATION } from './usable.ts';
import { usableColumns } from './usableColumns.ts';

/** Below this many degrees of freedom repeats are not enough to replace a stated repeatability:
 *  from 10 on their scatter is known to about a quarter, inside the factor that the fit averages over. */
export const REPEATS_NEEDED = 10;

/** Repeatability found from repeats over all lines where there are enough, else as stated,
 *  else half a division. */
export function repeatabilityOf(
  survey: Survey,
  stated: number | undefined,
  resolution: number | undefined,
  errorOf: (placement: Placement) => ((station: number) => number) | undefined = () => undefined,
): Repeatability {
  let squares = 0;
  let dof = 0;
  let finest = Infinity;
  for (const line of survey.lines) {
    for (const placements of byPeriod(line)) {
      const usable = placements.map((p) =>
        usableColumns(p, survey.workUnit, resolution, errorOf(p)),
      );
      for (const { readings, division } of usable) {
        for (const r of readings ?? []) finest = Math.min(finest, r.division);
        if (division !== undefined) finest = Math.min(finest, division);
      }
      for (const group of tiedGroups(usable, SAME_STATION)) {
        const members = group.map((i) => usable[i]).filter((p) => p.x.length > 0);
        if (members.length === 0) continue;
        const scatter = repeatScatter(members, SAME_STATION);
        squares += scatter.squares;
        dof += scatter.dof;
      }
    }
  }
  if (dof >= REPEATS_NEEDED) return { mm: Math.sqrt(squares / dof), from: 'repeats', dof };
  if (stated !== undefined) return { mm: stated, from: 'stated' };
  const division = Number.isFinite(finest) ? finest : houseDivision(survey.workUnit);
  return { mm: division / 2, from: 'house default' };
}
