import { tiedGroups } from '../fit/tied.ts';
import type { Remark } from './assessment.ts';
import type { Line } from './survey.ts';
import { SAME_STATION } from './usable.ts';
import type { UsableColumns } from './usableColumns.ts';

/** One part a tied group. Placements too short to have a shape of their own, and tied to nothing,
 *  are set aside with a remark; untied groups are parts of their own, never bridged. */
export function partsOf(
  line: Pick<Line, 'name'>,
  placements: readonly UsableColumns[],
  remark: (remark: Remark) => void,
): readonly (readonly UsableColumns[])[] {
  const usable = placements.filter(({ x }) => x.length > 0);
  const groups = tiedGroups(usable, SAME_STATION).map((group) => group.map((i) => usable[i]));
  const told = groups.filter((group) => stationsIn(group) >= 3);
  const kept = told.length > 0 ? told : groups.slice(0, 1);
  for (const group of groups) {
    if (kept.includes(group)) continue;
    const count = group.reduce((sum, { x }) => sum + x.length, 0);
    remark({
      about: 'placement',
      line: line.name,
      kind: 'placement says nothing',
      words: `${line.name}, placement ${group[0].placement.name}: ${strayWords(count)} no two stations with another placement, and so ${count === 1 ? 'says' : 'say'} nothing of the shape; not used.`,
    });
  }
  if (kept.length > 1) {
    remark({
      about: 'line',
      line: line.name,
      kind: 'placements not tied',
      words: `${line.name}: its placements share fewer than two stations, so it is shown as ${kept.length} profiles. Lay the edge once more so that it shares two stations or more with both.`,
    });
  }
  return kept;
}

function strayWords(count: number): string {
  return count === 1 ? 'one reading that shares' : `${count} readings that share`;
}

/** Distinct stations, up to a limit. */
export function stationsIn(group: readonly UsableColumns[], limit = Infinity): number {
  const seen = new Set<number>();
  for (const { x } of group) {
    for (let i = 0; i < x.length; i++) if (x[i] <= limit) seen.add(Math.round(x[i] / SAME_STATION));
  }
  return seen.size;
}
