import { showTolerance, type WorkUnit } from '../../survey/figures.ts';
import type { BodyOf } from '../../survey/kinds/kinds.ts';
import { MASS_UNITS } from '../massUnits.ts';
import { WATERS } from '../planing/water.ts';
import { engineHeight } from './engineHeight.ts';

type Cause = BodyOf<'cause'>;

/** What the measures of a cause mean, in sentences. Common practice, no source; the maker's own rule comes first. */
export function measuredWords(
  { engine, bracket, pocket }: Pick<Cause, 'engine' | 'bracket' | 'pocket'>,
  unit: WorkUnit,
): readonly string[] {
  return [
    ...(engine?.setback && engine.plate
      ? [engineHeightWords(engine.setback.mm, engine.plate.mm, unit)]
      : []),
    ...(bracket?.underside ? [bracketWords(bracket.underside.mm, unit)] : []),
    ...(pocket && Object.keys(pocket).length > 0 ? pocketWords(pocket, unit) : []),
  ];
}

/** What the rule of thumb says of the engine's height. */
function engineHeightWords(setback: number, plate: number, unit: WorkUnit): string {
  const { says, low, high, by } = engineHeight(setback, plate);
  const show = (mm: number) => showTolerance(mm, unit);
  const stands = `${show(Math.abs(plate))} ${plate < 0 ? 'below' : 'above'} the bottom at ${show(setback)} of setback`;
  const rule = `the rule of thumb puts it ${setback === 0 ? 'level' : `${show(low)} to ${show(high)} above`}`;
  const word = says === 'about right' ? 'about right' : `too ${says} by ${show(by)}`;
  return `Plate ${stands}: ${word}; ${rule}.`;
}

function bracketWords(underside: number, unit: WorkUnit): string {
  return underside <= 0
    ? 'The bracket’s underside lies no higher than the bottom carried straight aft: it drags.'
    : `The bracket’s underside clears the bottom carried straight aft by ${showTolerance(underside, unit)}: look for wash on it all the same.`;
}

function pocketWords(pocket: NonNullable<Cause['pocket']>, unit: WorkUnit): readonly string[] {
  const { count = 1, length, width, depth, below, vented } = pocket;
  const many = count > 1;
  const size =
    length === undefined || width === undefined
      ? []
      : [
          `${many ? `The ${count} pockets take` : 'The pocket takes'} ${showArea(count * length.mm * width.mm, unit)} of bottom out of work at the transom${
            depth === undefined
              ? ''
              : ` and ${many ? 'hold' : 'holds'} up to ${showWater(count * length.mm * width.mm * depth.mm, unit)} of water`
          }.`,
        ];
  return [...size, holdWords(below?.mm, vented), 'Leave its stations out of the survey.'];
}

function holdWords(
  below: number | undefined,
  vented: NonNullable<Cause['pocket']>['vented'],
): string {
  if (below === undefined) {
    return 'Measure afloat, loaded as it runs, how far the pocket’s top lies below the waterline at rest.';
  }
  if (below <= 0) {
    return 'Its top lies above the waterline at rest, so air can come in: less likely to hold the stern down, unless the boat is heavier than when this was measured.';
  }
  if (vented === undefined) return 'Below the waterline at rest: look whether air can get in.';
  return vented === 'vented'
    ? 'Below the waterline at rest, but vented: see that the vent is clear, then it is less likely to hold the stern down.'
    : 'Below the waterline at rest and not vented: it can trap air and hold the stern down getting on plane, the more the heavier the boat. Vent it and try again.';
}

/** To two digits: nobody measures a pocket closer. */
function showArea(mm2: number, unit: WorkUnit): string {
  return unit === 'in' ? `${twoDigits(mm2 / 645.16)} sq in` : `${twoDigits(mm2 / 100)} cm²`;
}

function showWater(mm3: number, unit: WorkUnit): string {
  const kg = (mm3 / 1e9) * WATERS.sea.density;
  return unit === 'in' ? `${twoDigits(kg / MASS_UNITS.lb)} lb` : `${twoDigits(kg)} kg`;
}

function twoDigits(value: number): string {
  return String(Number(value.toPrecision(2)));
}
