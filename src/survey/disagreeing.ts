import { compared, type Comparison } from '../fit/disagreement.ts';
import type { Remark, Repeatability } from './assessment.ts';
import type { EdgeMode } from './edge/edgeUse.ts';
import { showMeasured, showPlace, showStretch, type WorkUnit } from './figures.ts';
import { listed } from './sentence.ts';
import type { Line, Placement } from './survey.ts';
import { SAME_STATION } from './usable.ts';
import { columnUncertainties, type UsableColumns } from './usableColumns.ts';

/** Chance with which it is said of a line whose placements agree that two of them do not, where its readings scatter as
 *  much as they may. */
const AMISS = 0.01;
/** Readings may scatter this many times what was taken before two placements are said not to agree: nobody knows their
 *  own repeatability better, and the fit allows as much. */
const WIDEST = 1.4;
/** More shared stations than this are told by the stretch that they span. */
const MOST_NAMED = 6;

/** Two placements of a line that cannot both be right. */
export interface Disagreeing extends Comparison {
  readonly first: Placement;
  readonly second: Placement;
  /** Those that agree with one of the two and not with the other, and which of the two that is. */
  readonly borneOut: readonly { readonly by: Placement; readonly which: Placement }[];
}

/** Placements of one line, tied or not, that contradict each other at the stations they share, the plainest first. Each
 *  may have any offset and tilt; two that share fewer than three stations cannot contradict each other, and nothing is
 *  said of them. A log's stations are its own, and it is not asked.
 *  `repeatability`: of readings, from elsewhere than these placements; `modesOf`: what is not known of the edge that a
 *  placement was laid with, in which two placements may differ as well. */
export function disagreeing(
  group: readonly UsableColumns[],
  repeatability: Repeatability,
  modesOf: (placement: Placement) => readonly EdgeMode[],
): readonly Disagreeing[] {
  const hand = group
    .filter(({ readings }) => readings !== undefined)
    .sort((a, b) => (called(a.placement) < called(b.placement) ? -1 : 1));
  const columns = hand.map((each) => ({
    x: each.x,
    gap: each.gap,
    u: columnUncertainties(each, repeatability).map((u) => WIDEST * u),
  }));
  const pairs = hand.flatMap((a, i) =>
    hand.slice(i + 1).flatMap((b, k) => {
      const j = i + 1 + k;
      const modes = between(modesOf(a.placement), modesOf(b.placement));
      const found = compared(columns[i], columns[j], SAME_STATION, modes);
      return found.ok ? [{ i, j, found }] : [];
    }),
  );
  const amiss = ({ found }: (typeof pairs)[number]) => found.probability < AMISS / pairs.length;
  const agree = (p: number, q: number) =>
    pairs.some((pair) => pair.i === Math.min(p, q) && pair.j === Math.max(p, q) && !amiss(pair));
  const differ = (p: number, q: number) =>
    pairs.some((pair) => pair.i === Math.min(p, q) && pair.j === Math.max(p, q) && amiss(pair));
  return pairs
    .filter(amiss)
    .sort((a, b) => a.found.probability - b.found.probability)
    .map(({ i, j, found }) => ({
      ...found,
      first: hand[i].placement,
      second: hand[j].placement,
      borneOut: hand.flatMap(({ placement: by }, k) => {
        if (agree(k, i) && differ(k, j)) return [{ by, which: hand[i].placement }];
        if (agree(k, j) && differ(k, i)) return [{ by, which: hand[j].placement }];
        return [];
      }),
    }));
}

/** What an unknown of the edges does to the difference of two placements: one and the same unknown in both cancels as
 *  far as it is alike in both. */
function between(first: readonly EdgeMode[], second: readonly EdgeMode[]) {
  const keys = [...new Set([...first, ...second].map(({ key }) => key))];
  return keys.map((key) => {
    const one = first.find((mode) => mode.key === key);
    const other = second.find((mode) => mode.key === key);
    return (x: number) => (other ? other.at(x) : 0) - (one ? one.at(x) : 0);
  });
}

/** A group as if one reading had not been taken. */
export function withoutReading(
  group: readonly UsableColumns[],
  { placement, index }: { readonly placement: number; readonly index: number },
): readonly UsableColumns[] {
  return group.map((columns, p) => {
    const { readings, x, gap } = columns;
    if (p !== placement || readings === undefined) return columns;
    const keep = <Value>(values: ArrayLike<Value>) =>
      Array.from(values).filter((_, i) => i !== index);
    return { ...columns, x: keep(x), gap: keep(gap), readings: keep(readings) };
  });
}

/** In words: which two, where, by how much, and what to do. */
export function disagreeRemark(
  line: Pick<Line, 'name'>,
  { first, second, shared, at, apart, u, borneOut }: Disagreeing,
  unit: WorkUnit,
): Remark {
  const where =
    shared.length > MOST_NAMED
      ? `${shared.length} stations from ${showStretch(shared[0], shared[shared.length - 1], unit)}`
      : listed(shared.map((x) => showPlace(x, unit).replace(` ${unit}`, ''))) + ` ${unit}`;
  const witness = borneOut.map(
    ({ by, which }) => ` ${called(by, 'P')} bears out ${called(which)}.`,
  );
  return {
    about: 'line',
    line: line.name,
    kind: 'placements disagree',
    words:
      `${line.name}: ${called(first)} and ${called(second)} contradict each other where both were read (${where}). Whatever height and tilt each is given, their readings stand ${showMeasured(Math.abs(apart), u, unit)} apart at ${showPlace(at, unit)}, more than readings scatter.${witness.join('')}` +
      ' Was the edge pressed, shifted or turned over, or did the hull move between the two? Lay the edge there once more, and strike the readings of the one that this does not bear out; until then both count.',
  };
}

function called({ name, repeat }: Placement, capital: 'p' | 'P' = 'p'): string {
  const again = repeat > 1 ? ` laid again (${repeat})` : '';
  return `${capital}lacement ${name}${again}`;
}
