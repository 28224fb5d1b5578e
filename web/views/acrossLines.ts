import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import { canCross, fromInside, placeAthwart } from '../../src/survey/panels/placeAthwart.ts';
import type { AcrossSide } from '../../src/survey/survey.ts';

/** Lines of a side from the keel outwards; right across it from port to starboard. */
export function linesOfSide(lines: readonly HullLine[], side: AcrossSide): readonly HullLine[] {
  const inOrder = fromInside(side);
  return lines
    .filter((line) => canCross(side, whereOf(line)))
    .sort((a, b) => inOrder(whereOf(a), whereOf(b)));
}

/** Where a line lies athwart, as `placeAthwart` has it. */
export function placeOf(side: AcrossSide, line: HullLine): number {
  return placeAthwart(side, whereOf(line));
}

function whereOf({ side, offset }: HullLine) {
  return { side, offset: offset.mm };
}
