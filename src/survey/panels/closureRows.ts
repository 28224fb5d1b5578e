import { AMISS } from '../../fit/surface/misclosure.ts';
import { acrossSideWords } from '../acrossSide.ts';
import { showPlace, type WorkUnit } from '../figures.ts';
import type { PlacementAcross } from '../survey.ts';
import type { PanelAssessment, PanelJudged } from './assessPanels.ts';

/** One placement of a panel and how it fits in with the others. Those along a line that nothing checks are left out. */
export interface ClosureRow {
  readonly name: string;
  /** "along P150", "athwart at 100 mm". */
  readonly lies: string;
  /** In how many independent checks it has a part. */
  readonly checks: string;
  /** Root mean square of what it adds, as a multiple of what the readings' uncertainty explains. */
  readonly times: string;
  /** How often by chance as much or more would be seen. */
  readonly chance: string;
  readonly says: 'fits' | 'does not fit' | 'out of line, lay it again' | 'nothing checks it';
}

export function closureRows(
  { lines, side }: Pick<PanelAssessment, 'lines' | 'side'>,
  { misclosure, placements, panel }: PanelJudged,
  unit: WorkUnit,
): readonly ClosureRow[] {
  return placements.flatMap((placement, p): readonly ClosureRow[] => {
    const found = misclosure.placements[p];
    if (found === undefined && !('direction' in placement)) return [];
    const lies =
      'direction' in placement
        ? acrossWords(placement, lines, unit) +
          (placement.side === side ? '' : `, ${acrossSideWords(placement.side)}`)
        : `along ${lines[panel.placements[p].line[0]].name}`;
    const row = { name: placement.name, lies };
    if (found === undefined) {
      return [{ ...row, checks: '0', times: '—', chance: '—', says: 'nothing checks it' }];
    }
    const { normalised, dof, probability } = found;
    // So many are looked at that one in a hundred would be out by chance alone.
    const amiss = probability < AMISS / placements.length;
    return [
      {
        ...row,
        checks: String(dof),
        times: normalised.toFixed(1),
        chance: chanceOf(probability),
        says:
          misclosure.outlier === p ? 'out of line, lay it again' : amiss ? 'does not fit' : 'fits',
      },
    ];
  });
}

/** "athwart at 100 mm", "diagonal, 200 mm on P150 to 1300 mm on P600". */
function acrossWords(
  { direction, readings }: PlacementAcross,
  lines: PanelAssessment['lines'],
  unit: WorkUnit,
): string {
  const met = lines.flatMap(({ id, name }) => {
    const reading = readings.find(({ line }) => line === id);
    return reading === undefined ? [] : [{ name, at: showPlace(reading.station.mm, unit) }];
  });
  if (met.length === 0) return direction;
  const [inner, outer] = [met[0], met[met.length - 1]];
  return direction === 'athwart'
    ? `athwart at ${inner.at}`
    : `diagonal, ${inner.at} on ${inner.name} to ${outer.at} on ${outer.name}`;
}

function chanceOf(probability: number): string {
  if (probability < 0.001) return 'under 1 in 1000';
  if (probability < 0.01) return `1 in ${Math.round(1 / probability)}`;
  return `${Math.round(100 * probability)} %`;
}
