import type { Line, Placement, PlacementAcross, Side, Survey } from '../survey.ts';
import { SAME_STATION } from '../usable.ts';
import { readingCount } from '../usableColumns.ts';
import { STATIONS_A_LINE } from '../../fit/surface/fitPanel.ts';

/** Lines of one side that straightedges laid across tie together, while the hull stood on one support. */
export interface PanelLines {
  readonly side: Exclude<Side, 'centre'>;
  /** From the keel outwards. */
  readonly lines: readonly { readonly line: Line; readonly placements: readonly Placement[] }[];
  readonly across: readonly PlacementAcross[];
}

/** The panels of a survey: on each side, and in each period of support, lines that placements across share make one panel;
 *  lines that none crosses are together one that is not tied, where they are two or more. A line with too few stations of
 *  its own belongs to none. Where a panel should end, at a strake, nothing crosses. */
export function panelsOf(survey: Survey): readonly PanelLines[] {
  const across = survey.across ?? [];
  const periods = new Set([
    ...survey.lines.flatMap((line) => line.placements.map((p) => periodOf(p))),
    ...across.map((p) => periodOf(p)),
  ]);
  return [...periods]
    .sort((a, b) => a - b)
    .flatMap((period) =>
      (['port', 'starboard'] as const).flatMap((side) => {
        const lines = survey.lines
          .filter((line) => line.side === side)
          .map((line) => ({
            line,
            placements: line.placements.filter((p) => periodOf(p) === period),
          }))
          .filter(({ placements }) => stationsOf(placements) >= STATIONS_A_LINE)
          .sort((a, b) => a.line.offset - b.line.offset);
        const own = across.filter((p) => p.side === side && periodOf(p) === period);
        return partsOf(side, lines, own);
      }),
    );
}

function partsOf(
  side: PanelLines['side'],
  lines: PanelLines['lines'],
  across: readonly PlacementAcross[],
): readonly PanelLines[] {
  const group = new Map(lines.map(({ line }, i) => [line.id, i]));
  for (const placement of across) {
    const met = [...new Set(placement.readings.map(({ line }) => group.get(line)))];
    const joined = met.filter((g) => g !== undefined);
    for (const [id, g] of group) if (joined.includes(g)) group.set(id, joined[0]);
  }
  const crossed = (id: string) =>
    across.some(({ readings }) => readings.some(({ line }) => line === id));
  const tied = new Set(
    lines.filter(({ line }) => crossed(line.id)).map(({ line }) => group.get(line.id)),
  );
  const panels = [...tied].map((g): PanelLines => {
    const own = lines.filter(({ line }) => group.get(line.id) === g && crossed(line.id));
    const ids = new Set(own.map(({ line }) => line.id));
    return {
      side,
      lines: own,
      across: across.filter(({ readings }) => readings.some(({ line }) => ids.has(line))),
    };
  });
  const loose = lines.filter(({ line }) => !crossed(line.id));
  return loose.length < 2 ? panels : [...panels, { side, lines: loose, across: [] }];
}

/** Placements of which nobody stated the support all belong to the first period. */
function periodOf({ supportPeriod }: Pick<Placement, 'supportPeriod'>): number {
  return supportPeriod === undefined ? FIRST_PERIOD : supportPeriod;
}

const FIRST_PERIOD = 0;

function stationsOf(placements: readonly Placement[]): number {
  if (placements.some((p) => p.log !== undefined)) {
    return placements.reduce((sum, p) => sum + readingCount(p), 0);
  }
  const seen = placements.flatMap((p) =>
    p.readings.map(({ station }) => Math.round(station.mm / SAME_STATION)),
  );
  return new Set(seen).size;
}
