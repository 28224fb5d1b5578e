import { expected } from '../../src/running/estimate.ts';
import type { LedgerLine } from '../../src/running/fold/ledgerOf.ts';
import { showMass } from '../../src/running/massUnits.ts';
import { showPlaceFigure } from '../../src/running/showFigure.ts';
import { massThatBringsBack, moveThatBringsBack } from '../../src/running/weights/bringBack.ts';
import type { LoadFigures } from '../../src/running/weights/loads.ts';
import { showPlace } from '../../src/survey/figures.ts';
import type { WeightUnits } from './ledgerView.ts';

export interface BringBack {
  /** What is to be brought where. */
  readonly aim: string;
  /** A mass at the place that was given, and what that costs; absent where no place is. */
  readonly mass?: string;
  readonly moves: readonly { readonly name: string; readonly says: string }[];
}

/** Heavier than this part of the boat, nobody moves it. House default, no source. */
const MOVABLE = 0.25;

/** What brings LCG of the boat as now to `target` (mm): a mass at `x`, or a move of an item that is aboard.
 *  `foremost`: where the bow ends, as far as that is known. */
export function bringBackView(
  load: LoadFigures,
  target: number,
  {
    x,
    foremost,
    lines,
    units,
  }: {
    readonly x?: number | undefined;
    readonly foremost?: number | undefined;
    readonly lines: readonly LedgerLine[];
    readonly units: WeightUnits;
  },
): BringBack {
  const { length, mass } = units;
  const off = target - load.lcg.value;
  const way = off > 0 ? 'aft' : 'forward';
  const aim =
    Math.abs(off) < (length === 'in' ? 1.27 : 0.5)
      ? `LCG as now is where it should be, ${showPlaceFigure({ value: target, u: 0 }, length)} forward of the transom.`
      : `LCG as now lies ${showPlaceFigure({ value: Math.abs(off), u: load.lcg.u }, length)} ${way} of where it should be, ${showPlaceFigure({ value: target, u: 0 }, length)} forward of the transom.`;
  return {
    aim,
    ...(x !== undefined && { mass: massWords(load, target, x, units) }),
    moves: standingAsNow(lines).flatMap(({ name, kg, x: place }) => {
      if (!(kg > 0) || kg > MOVABLE * load.displacement.value) return [];
      const within = { aftmost: -Infinity, foremost: foremost ?? Infinity };
      const move = moveThatBringsBack(load, target, { mass: kg, x: place }, within);
      if (!move.ok) return [{ name, says: `would not do: ${move.reason}` }];
      const by = showPlaceFigure({ ...move.by, value: Math.abs(move.by.value) }, length);
      const to = showPlace(Math.abs(move.to), length);
      const where = move.to < 0 ? `${to} aft of the transom` : `${to} forward of the transom`;
      return [
        {
          name: `${name}, ${showMass(kg, mass)}`,
          says: `${by} ${move.by.value > 0 ? 'forward' : 'aft'}, to about ${where}; the boat weighs the same`,
        },
      ];
    }),
  };
}

function massWords(load: LoadFigures, target: number, x: number, units: WeightUnits): string {
  const there = massThatBringsBack(load, target, x);
  const where = `${showPlace(Math.abs(x), units.length)} ${x < 0 ? 'aft' : 'forward'} of the transom`;
  if (!there.ok) return `At ${where}: not told, ${there.reason}.`;
  const { act, mass, displacement } = there;
  const size = showMass(mass.value, units.mass, mass.u);
  const weighs = showMass(displacement, units.mass, load.displacement.u);
  return act === 'carry'
    ? `Carry ${size} at ${where}. It costs that much in displacement: the boat then weighs ${weighs}.`
    : `Take ${size} off at ${where}; the boat then weighs ${weighs}.`;
}

/** What is aboard as now and where it stands: not what was removed or is only proposed; a moved thing at its new place. */
function standingAsNow(lines: readonly LedgerLine[]) {
  const gone = new Set(
    lines.flatMap(({ item, body }) =>
      item && body.since !== 'as proposed' && (item.act === 'removed' || item.act === 'moved')
        ? (body.thing ?? [])
        : [],
    ),
  );
  return lines.flatMap(({ id, item, body }) => {
    if (item === undefined || item.act === 'removed') return [];
    if (item.act !== 'aboard' && item.since === 'as proposed') return [];
    if (item.act !== 'moved' && gone.has(id)) return [];
    const place = item.act === 'aboard' ? item.at : item.to;
    return [{ name: body.name, kg: expected(item.mass), x: expected(place.x) }];
  });
}
