import { showMass, type MassUnit } from '../../src/running/massUnits.ts';
import { showSpeed, type SpeedUnit } from '../../src/running/speedUnits.ts';
import type { Spread } from '../../src/running/whatIf/spread.ts';
import type { CaseAtSpeed, CaseFigures, WhatIf } from '../../src/running/whatIf/whatIf.ts';
import { beginsWords, caseTitle, showShare } from '../../src/running/whatIf/whatIfWords.ts';
import { showPlaceFigure } from '../../src/running/showFigure.ts';
import { showPlace, type WorkUnit } from '../../src/survey/figures.ts';

export interface RunningUnits {
  readonly length: WorkUnit;
  readonly mass: MassUnit;
  readonly speed: SpeedUnit;
}

export interface SpeedRow {
  readonly speed: string;
  /** The trim, with where 95 of 100 draws lie; or a dash. */
  readonly trim: string;
  readonly limit: string;
  readonly stands: string;
  readonly porpoises: string;
  readonly keel: string;
  readonly chine: string;
  readonly draft: string;
  readonly drag: string;
  /** Why something in the row is not told; empty where all is. */
  readonly reason: string;
}

const NONE = '–';
/** 1 lbf = 4.4482216152605 N: NIST SP 811 (2008), appendix B.8. */
const POUND_FORCE = 4.4482216152605;

/** A case at each speed: what there is of it, and the reason where there is nothing. */
export function speedRows(
  { curve }: CaseFigures,
  { length, mass, speed: unit }: RunningUnits,
): readonly SpeedRow[] {
  return curve.map((one) => {
    const { runs, limit, stability, spread, porpoises } = one;
    const wetted = runs.ok && runs.wetted.ok ? runs.wetted : undefined;
    return {
      speed: showSpeed(one.speed, unit),
      trim: runs.ok
        ? `${runs.trim.toFixed(1)}°${spread ? ` (${spread.low.toFixed(1)}° to ${spread.high.toFixed(1)}°)` : ''}`
        : NONE,
      limit: limit.ok ? `${limit.low.toFixed(1)}° to ${limit.high.toFixed(1)}°` : NONE,
      stands: stability,
      porpoises: porpoises === undefined ? NONE : showShare(porpoises),
      keel: wetted ? showPlace(wetted.keel, length) : NONE,
      chine: wetted ? showPlace(wetted.chine, length) : NONE,
      draft: wetted ? showPlace(wetted.draft, length) : NONE,
      drag: runs.ok ? showForce(runs.drag, mass) : NONE,
      reason: reasonOf(one),
    };
  });
}

function reasonOf({ runs, limit }: CaseAtSpeed): string {
  if (!runs.ok) return runs.reason;
  return [
    ...(limit.ok ? [] : [limit.reason]),
    ...(runs.wetted.ok ? [] : [runs.wetted.reason]),
  ].join('; ');
}

/** Two figures of a force: the method is good for no more. */
export function showForce(newtons: number, mass: MassUnit): string {
  const size = mass === 'lb' ? newtons / POUND_FORCE : newtons;
  const step = 10 ** Math.max(0, Math.floor(Math.log10(Math.abs(size) || 1)) - 1);
  return `${Math.round(size / step) * step} ${mass === 'lb' ? 'lbf' : 'N'}`;
}

export interface CaseRow {
  readonly name: string;
  readonly weighs: string;
  readonly lcg: string;
  readonly trim: string;
  readonly stands: string;
  /** Of the trim, against as now. */
  readonly change: string;
  readonly begins: string;
}

/** The cases side by side, at the speed at which they are compared. */
export function caseRows(found: WhatIf, units: RunningUnits): readonly CaseRow[] {
  return found.cases.map((one) => {
    const here = one.curve.find(({ speed }) => speed === found.at);
    const change = found.changes.find(({ name }) => name === one.name)?.trim;
    const { displacement, lcg } = one.load;
    return {
      name: caseTitle(one.name),
      weighs: showMass(displacement.value, units.mass, displacement.u),
      lcg: showPlaceFigure(lcg, units.length),
      trim: here?.runs.ok ? `${here.runs.trim.toFixed(1)}°` : NONE,
      stands: here?.stability ?? 'not told',
      change: one.name === 'as now' ? '' : change ? signed(change) : NONE,
      begins: beginsWords(one.begins, units.speed),
    };
  });
}

/** To a tenth, or to a hundredth where the whole of it lies below 0.2°. */
function signed({ low, middle: degrees, high }: Spread): string {
  const decimals = Math.max(Math.abs(low), Math.abs(high)) < 0.2 ? 2 : 1;
  const size = Math.abs(degrees).toFixed(decimals);
  if (Number(size) === 0) return 'none';
  return `${degrees < 0 ? '−' : '+'}${size}°`;
}

/** Each reason once, of every case. */
export function reasonsIn({ cases }: WhatIf): readonly string[] {
  const all = cases.flatMap(({ curve }) =>
    curve.flatMap(({ runs, limit }) =>
      runs.ok ? (limit.ok ? [] : [limit.reason]) : [runs.reason],
    ),
  );
  return [...new Set(all)];
}
