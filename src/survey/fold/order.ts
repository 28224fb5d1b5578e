import { canonical } from '../../book/canonical.ts';
import type {
  Edge,
  Line,
  Placement,
  PlacementAcross,
  Reading,
  Side,
  Survey,
  Typed,
} from '../survey.ts';

const SIDES: readonly Side[] = ['port', 'centre', 'starboard'];
const ACROSS: readonly PlacementAcross['side'][] = ['port', 'starboard', 'both'];

/** Port, centre, starboard; each from the keel outwards; then by name and id. */
export function lineOrder(
  a: { side: Side; offset: Typed | number; name: string; id: string },
  b: { side: Side; offset: Typed | number; name: string; id: string },
): number {
  return (
    SIDES.indexOf(a.side) - SIDES.indexOf(b.side) ||
    mmOf(a.offset) - mmOf(b.offset) ||
    byText(a.name, b.name) ||
    byText(a.id, b.id)
  );
}

/** The same survey in the order that folds give: edges by name, lines from the keel outwards, placements by name and repeat,
 *  readings, voids and stations put off from the transom forward, looks in turn. */
export function inOrder(survey: Survey): Survey {
  return {
    ...survey,
    conditions: Object.fromEntries(
      Object.entries(survey.conditions).sort(([a], [b]) => byText(a, b)),
    ),
    ...(survey.edges !== undefined && { edges: edgesInOrder(survey.edges) }),
    lines: [...survey.lines].sort(lineOrder).map((line) => ({
      ...line,
      placements: [...line.placements].sort(placementOrder).map(placementInOrder),
    })),
    ...(survey.across !== undefined && { across: acrossInOrder(survey.across, survey.lines) }),
  };
}

/** Port first, then by name and repeat; readings from the keel outwards, right across it port before starboard. */
function acrossInOrder(
  across: readonly PlacementAcross[],
  lines: readonly Line[],
): readonly PlacementAcross[] {
  const places = new Map([...lines].sort(lineOrder).map(({ id }, place) => [id, place]));
  const place = ({ line }: { readonly line: string }): number => places.get(line) ?? places.size;
  type On = Pick<Reading, 'station' | 'source'> & { readonly line: string };
  const outward = <T extends On>(a: T, b: T): number =>
    place(a) - place(b) || forward(a, b) || byText(a.source, b.source);
  return [...across]
    .sort(
      (a, b) =>
        ACROSS.indexOf(a.side) - ACROSS.indexOf(b.side) ||
        byText(a.direction, b.direction) ||
        byName(a.name, b.name) ||
        a.repeat - b.repeat ||
        byText(a.id, b.id),
    )
    .map((laying) => ({
      ...laying,
      readings: [...laying.readings].sort(
        (a, b) =>
          place(a) - place(b) || forward(a, b) || a.look - b.look || byText(a.source, b.source),
      ),
      voids: [...laying.voids].sort(outward),
      later: [...laying.later].sort(outward),
    }));
}

/** By name; the checks of each by their day, then by what they say. */
function edgesInOrder(edges: readonly Edge[]): readonly Edge[] {
  const key = ({ name, length }: Edge) => `${name} ${length ?? ''}`;
  return edges
    .map((edge) => ({
      ...edge,
      ...(edge.checks !== undefined && {
        checks: [...edge.checks].sort(
          (a, b) => byText(a.date ?? '', b.date ?? '') || byText(canonical(a), canonical(b)),
        ),
      }),
    }))
    .sort((a, b) => byText(key(a), key(b)));
}

function placementOrder(a: Placement, b: Placement): number {
  return byName(a.name, b.name) || a.repeat - b.repeat || byText(a.id, b.id);
}

function placementInOrder(placement: Placement): Placement {
  return {
    ...placement,
    readings: [...placement.readings].sort(
      (a, b) => forward(a, b) || a.look - b.look || byText(a.source, b.source),
    ),
    voids: [...placement.voids].sort((a, b) => forward(a, b) || byText(a.source, b.source)),
    later: [...placement.later].sort((a, b) => forward(a, b) || byText(a.source, b.source)),
  };
}

function forward(a: Pick<Reading, 'station'>, b: Pick<Reading, 'station'>): number {
  return a.station.mm - b.station.mm;
}

/** "2" before "10"; names that are no numbers after, by their letters. */
function byName(a: string, b: string): number {
  const [first, second] = [a, b].map((name) => (/^\d{1,9}$/.test(name) ? Number(name) : Infinity));
  if (first !== second) return first < second ? -1 : 1;
  return byText(a, b);
}

function mmOf(offset: Typed | number): number {
  return typeof offset === 'number' ? offset : offset.mm;
}

/** By code units: the same on every device, whatever its language. */
function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
