import { STATIONS_A_LINE } from '../../fit/surface/fitPanel.ts';
import { flatAcrossKeel } from '../flatAcrossKeel.ts';
import type { AcrossSide, Line, Placement, PlacementAcross, Survey } from '../survey.ts';
import { SAME_STATION } from '../usable.ts';
import { readingCount } from '../usableColumns.ts';
import { canCross, fromInside, placeAthwart } from './placeAthwart.ts';

/** Lines that straightedges laid across tie together, while the hull stood on one support: of one side, or of both where
 *  they were laid right across the keel. */
export interface PanelLines {
  readonly side: AcrossSide;
  /** From the keel outwards; across it from port to starboard. */
  readonly lines: readonly { readonly line: Line; readonly placements: readonly Placement[] }[];
  readonly across: readonly PlacementAcross[];
}

/** The panels of a survey: on each side, and in each period of support, lines that placements across share make one panel;
 *  lines that none crosses are together one that is not tied, where they are two or more. A line with too few stations of
 *  its own belongs to none. Where a panel should end, at a strake, nothing crosses. Placements right across the keel make
 *  one panel of both sides, where it is stated that the bottom is flat there; else they count for nothing. */
export function panelsOf(survey: Survey): readonly PanelLines[] {
  const flat = flatAcrossKeel(survey);
  const across = (survey.across ?? []).filter(({ side }) => flat || side !== 'both');
  const periods = new Set([
    ...survey.lines.flatMap((line) => line.placements.map((p) => periodOf(p))),
    ...across.map((p) => periodOf(p)),
  ]);
  return [...periods]
    .sort((a, b) => a - b)
    .flatMap((period) => {
      const lines = survey.lines
        .map((line) => ({
          line,
          placements: line.placements.filter((p) => periodOf(p) === period),
        }))
        .filter(({ placements }) => stationsOf(placements) >= STATIONS_A_LINE);
      const own = across.filter((p) => periodOf(p) === period);
      return own.some(({ side }) => side === 'both')
        ? partsOf('both', lines, own)
        : sidesOf(lines, own);
    });
}

/** The sides of a panel by themselves: what was laid across the keel is straight on each of them too. */
export function sidesApart({ lines, across }: PanelLines): readonly PanelLines[] {
  return sidesOf(lines, across);
}

function sidesOf(
  lines: PanelLines['lines'],
  across: readonly PlacementAcross[],
): readonly PanelLines[] {
  return (['port', 'starboard'] as const).flatMap((side) =>
    partsOf(
      side,
      lines,
      across.filter((p) => p.side === side || p.side === 'both'),
    ),
  );
}

function partsOf(
  side: AcrossSide,
  all: PanelLines['lines'],
  across: readonly PlacementAcross[],
): readonly PanelLines[] {
  const lines = inPlaces(side, all);
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
    const of = sideOf(own);
    return {
      side: of,
      lines: inPlaces(of, own),
      across: across.filter(({ readings }) => readings.some(({ line }) => ids.has(line))),
    };
  });
  const loose = lines.filter(({ line }) => !crossed(line.id));
  const apart = (['port', 'starboard'] as const).flatMap((each): readonly PanelLines[] => {
    const own = inPlaces(each, loose);
    return own.length < 2 ? [] : [{ side: each, lines: own, across: [] }];
  });
  return [...panels, ...apart];
}

/** The only side that lines lie on, else both. */
function sideOf(lines: PanelLines['lines']): AcrossSide {
  const [first] = lines;
  const { side } = first.line;
  return side !== 'centre' && lines.every(({ line }) => line.side === side) ? side : 'both';
}

/** Lines that can be crossed there, in their order athwart; of those at one place the first alone. */
function inPlaces(of: AcrossSide, lines: PanelLines['lines']): PanelLines['lines'] {
  return lines
    .filter(({ line }) => canCross(of, line))
    .sort((a, b) => fromInside(of)(a.line, b.line))
    .filter(
      ({ line }, i, all) => i === 0 || placeAthwart(of, line) > placeAthwart(of, all[i - 1].line),
    );
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
