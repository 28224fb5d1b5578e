import { capital } from '../../survey/sentence.ts';
import { showMass, type MassUnit } from '../massUnits.ts';
import type { Begins } from '../planing/beginsAt.ts';
import { showSpeed, type SpeedUnit } from '../speedUnits.ts';
import type { Case } from './boat.ts';
import type { Spread } from './spread.ts';
import type { BeginsOver, CaseChange, WhatIf } from './whatIf.ts';

/** Which of two levers does more to how near a boat is to porpoising, and how sure that is. */
export interface LargerLever {
  readonly lever: 'weight' | 'bottom' | 'neither';
  /** Sure: in 95 of 100 draws or more; likely: in 80 or more; else they cannot be told apart. */
  readonly sure: 'sure' | 'likely' | 'cannot be told apart';
}

/** Undefined where only one lever was asked, or one of them is not told. */
export function largerLever({ weightLarger }: WhatIf): LargerLever | undefined {
  if (weightLarger === undefined) return undefined;
  const most = Math.max(weightLarger, 1 - weightLarger);
  if (most < 0.8) return { lever: 'neither', sure: 'cannot be told apart' };
  return {
    lever: weightLarger > 0.5 ? 'weight' : 'bottom',
    sure: most >= 0.95 ? 'sure' : 'likely',
  };
}

export interface WordUnits {
  readonly speed: SpeedUnit;
  readonly mass: MassUnit;
}

/** The honest reading, in sentences: where the boat stands, what each change does, which lever is larger, and what the
 *  figures leave out. */
export function whatIfWords(found: WhatIf, units: WordUnits): readonly string[] {
  const [now] = found.cases;
  const at = showSpeed(found.at, units.speed);
  const here = now.curve.find(({ speed }) => speed === found.at);
  const stands =
    here === undefined || !here.runs.ok
      ? `At ${at}, as now: not told${here?.runs.ok === false ? `, ${here.runs.reason}` : ''}.`
      : `At ${at}, as now: ${here.stability}; trim ${showDegrees(here.runs.trim)}${
          here.limit.ok
            ? `, the limit lies between ${showDegrees(here.limit.low)} and ${showDegrees(here.limit.high)}`
            : `; ${here.limit.reason}`
        }${here.porpoises === undefined ? '' : `; it porpoises in ${showShare(here.porpoises)} draws`}.`;
  return [
    stands,
    ...found.changes.map((change) => changeWords(change, found, units)),
    ...leverWords(found),
    LEFT_OUT,
  ];
}

const LEFT_OUT =
  'Worked out for a prismatic hull in calm water. A hook or rocker is likened to a flap at the transom, from formulas that ' +
  'are from memory and were made for flaps set down. It shows which way and roughly how much; a test on the water decides.';

function changeWords(change: CaseChange, found: WhatIf, units: WordUnits): string {
  const name = capital(change.name === 'both' ? 'both together' : change.name);
  if (change.trim === undefined || change.margin === undefined || change.helps === undefined) {
    return `${name}: not told at ${showSpeed(found.at, units.speed)}.`;
  }
  const then = found.cases.find((one) => one.name === change.name);
  const now = found.cases[0];
  const heavier =
    then === undefined ? 0 : then.load.displacement.value - now.load.displacement.value;
  const cost =
    Math.abs(heavier) < 0.5
      ? ''
      : `; the boat weighs ${showMass(Math.abs(heavier), units.mass)} ${heavier > 0 ? 'more' : 'less'}`;
  const by = `${Math.abs(change.margin.middle).toFixed(1)}°`;
  const way =
    change.helps >= 0.95
      ? `it takes the boat ${by} further from porpoising`
      : change.helps <= 0.05
        ? `it brings the boat ${by} nearer to porpoising`
        : 'whether it helps cannot be told';
  return `${name}: trim ${showChange(change.trim)}; ${way}${cost}.`;
}

/** Which lever does more, and what that means for grinding; empty where only one was asked or one is not told. */
export function leverWords(found: WhatIf): readonly string[] {
  const larger = largerLever(found);
  if (larger === undefined) return [];
  if (larger.lever === 'neither') {
    return ['Whether weight or bottom is the larger lever for this boat cannot be told apart.'];
  }
  const share = found.weightLarger ?? Number.NaN;
  const inFavour = showShare(larger.lever === 'weight' ? share : 1 - share);
  const name = larger.lever === 'weight' ? 'Weight' : 'The bottom';
  const bottom = found.changes.find(({ name }) => name === 'bottom made fair');
  const warning =
    larger.lever === 'weight' && bottom?.helps !== undefined && bottom.helps <= 0.05
      ? ' The bottom as it is works against porpoising: made fair, the boat may porpoise more.'
      : '';
  return [
    `${name} is ${larger.sure === 'sure' ? '' : 'likely '}the larger lever for this boat: in ${inFavour} draws.${warning}`,
  ];
}

/** "99 of 100"; never all, and never none: draws prove neither. */
export function showShare(share: number): string {
  const hundredths = Math.round(share * 100);
  if (hundredths >= 100) return 'more than 99 of 100';
  return hundredths <= 0 ? 'fewer than 1 of 100' : `${hundredths} of 100`;
}

function showDegrees(angle: number): string {
  return `${angle.toFixed(1)}°`;
}

/** "falls by 0.6° (0.4° to 0.9°)", to a tenth, or to a hundredth where it is below 0.2°. */
function showChange({ low, middle, high }: Spread): string {
  const decimals = Math.max(Math.abs(low), Math.abs(high)) < 0.2 ? 2 : 1;
  const size = (angle: number) => Math.abs(angle).toFixed(decimals);
  if (Number(size(low)) === 0 && Number(size(high)) === 0) return 'does not change';
  const by = (angle: number) => `${angle < 0 ? '−' : '+'}${size(angle)}°`;
  if (low < 0 && high > 0) return `changes by ${by(middle)} (${by(low)} to ${by(high)})`;
  const [from, to] = low < 0 ? [high, low] : [low, high];
  return `${low < 0 ? 'falls' : 'rises'} by ${size(middle)}° (${size(from)}° to ${size(to)}°)`;
}

/** From which speed on, as a range: "porpoises from 24 to 31 kn on"; with how often, where it is not sure. */
export function beginsWords(begins: BeginsOver, unit: SpeedUnit): string {
  if (begins.chance === 0 && begins.expected.at === 'not told') return 'not told';
  if (begins.chance < 0.05) return 'does not porpoise at these speeds';
  const often = begins.chance > 0.95 ? '' : `, in ${showShare(begins.chance)} draws`;
  if (begins.orBelow > 0.5 || begins.speed === undefined) {
    return `from the slowest speed told on${often}`;
  }
  const { low, high } = begins.speed;
  const [from, to] = [showSpeed(low, unit), showSpeed(high, unit)];
  return from === to ? `from ${from} on${often}` : `from between ${from} and ${to} on${often}`;
}

/** The same for one curve. */
export function showBegins(begins: Begins, unit: SpeedUnit): string {
  if (begins.at === 'speed') return `from ${showSpeed(begins.speed, unit)} on`;
  if (begins.at === 'or below') return `from ${showSpeed(begins.speed, unit)} or below`;
  return begins.at === 'never' ? 'not at these speeds' : 'not told';
}

/** What a case is called at the head of a column. */
export function caseTitle(name: Case): string {
  return capital(name);
}
