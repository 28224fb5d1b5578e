import { showLine } from '../../src/survey/figures.ts';
import { acrossSideName } from '../../src/survey/acrossSide.ts';
import { capital } from '../../src/survey/sentence.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { acrossName } from './acrossView.ts';

/** Where a laying of a survey lies, by its id, and which laying it is where there are several: "port, 18 in from the
 *  keel, laying 2", "Port athwart at 12 in". */
export function laidWhere({ lines, across = [] }: Survey, id: string, unit: 'mm' | 'in'): string {
  const laid = across.find((each) => each.id === id);
  if (laid !== undefined) {
    const stations = [...laid.readings, ...laid.voids, ...laid.later].map((act) => act.station);
    return `${capital(acrossSideName(laid.side))} ${acrossName(laid, stations, unit)}`;
  }
  const line = lines.find(({ placements }) => placements.some((each) => each.id === id));
  const lay = line?.placements.find((each) => each.id === id);
  if (line === undefined || lay === undefined) return 'A line that is not here';
  const nth = lay.repeat > 1 ? `, laying ${lay.repeat}` : '';
  return `${showLine(line.side, line.offset, unit)}${nth}`;
}
