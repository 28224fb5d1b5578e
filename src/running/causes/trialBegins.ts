import type { BodyOf } from '../../survey/kinds/kinds.ts';
import { compareTrials, type TrialBegins, type TrialChange } from '../seaTrial.ts';
import { showSpeed, SPEED_UNITS, type SpeedUnit } from '../speedUnits.ts';

export type Run = BodyOf<'sea trial'>;

export type BeginsRead =
  ({ readonly ok: true } & TrialBegins) | { readonly ok: false; readonly reason: string };

/** How well a person calls the speed at which it begins, one standard uncertainty: 1 kn. A house default. */
const CALLED = SPEED_UNITS.kn;

/** The speed at which porpoising begins, from the runs of one trial: the mean of where it was called, or else between the
 *  fastest steady run and the slowest that porpoised, all speeds between as likely (GUM 4.3.7). */
export function beginsFrom(runs: readonly Run[], unit: SpeedUnit = 'kn'): BeginsRead {
  const speeds = (saw: Run['saw']) =>
    runs.filter((run) => run.saw === saw).map(({ speed }) => speed.mps);
  const called = speeds('begins');
  if (called.length > 0) {
    const speed = called.reduce((sum, each) => sum + each, 0) / called.length;
    const apart = (Math.max(...called) - Math.min(...called)) / 2;
    return { ok: true, speed, u: Math.hypot(CALLED, apart / Math.sqrt(3)) };
  }
  const [steady, bad] = [speeds('steady'), speeds('porpoises')];
  if (bad.length === 0) return { ok: false, reason: 'it was not seen to begin' };
  if (steady.length === 0) return { ok: false, reason: 'no run below it was steady' };
  const [from, to] = [Math.max(...steady), Math.min(...bad)];
  if (from >= to) {
    return {
      ok: false,
      reason: `it porpoised at ${showSpeed(to, unit)} and ran steady at ${showSpeed(from, unit)}`,
    };
  }
  return {
    ok: true,
    speed: (from + to) / 2,
    u: Math.hypot(CALLED, (to - from) / 2 / Math.sqrt(3)),
  };
}

/** Before and after a change, in sentences: where it begins, the change with its uncertainty, and what else differed.
 *  `named`: what was changed, where somebody said so. */
export function pairWords(
  before: readonly Run[],
  after: readonly Run[],
  unit: SpeedUnit = 'kn',
  named?: string,
): readonly string[] {
  if (before.length === 0 && after.length === 0) return [];
  const reads = [before, after].map((runs) => beginsFrom(runs, unit));
  const said = reads.flatMap((read, i) => {
    const name = i === 0 ? 'Before' : 'After';
    if ([before, after][i].length === 0) return [`${name}: no runs yet.`];
    return read.ok
      ? [`${name}: porpoising begins at ${about(read.speed, read.u, unit)}.`]
      : [`${name}: not told, ${read.reason}.`];
  });
  const [first, second] = reads;
  if (!first.ok || !second.ok) return said;
  return [
    ...said,
    changeWords(compareTrials(first, second), unit, named),
    ...unlike(before, after),
  ];
}

function changeWords(
  { change, u, says }: TrialChange,
  unit: SpeedUnit,
  named = 'the change',
): string {
  const by = about(Math.abs(change), u, unit);
  if (says === 'cannot be told') {
    return `Whether ${named} moved it cannot be told: ${by} ${change < 0 ? 'sooner' : 'later'}, which is within what the runs can show. Close in with steps of speed, before and after.`;
  }
  return says === 'later'
    ? `After ${named} it begins later, by ${by}: the change helps.`
    : `After ${named} it begins sooner, by ${by}: the change makes it worse.`;
}

/** With twice its standard uncertainty. */
function about(mps: number, u: number, unit: SpeedUnit): string {
  return `${showSpeed(mps, unit).replace(` ${unit}`, '')} ± ${Math.max(1, Math.round((2 * u) / SPEED_UNITS[unit]))} ${unit}`;
}

const SETTINGS = [
  ['sea', 'sea'],
  ['load', 'load'],
  ['driveTrim', 'drive trim'],
  ['tabs', 'tabs'],
] as const;

function unlike(before: readonly Run[], after: readonly Run[]): readonly string[] {
  const differ = SETTINGS.flatMap(([field, name]) => {
    const [a, b] = [before, after].map((runs) =>
      [...new Set(runs.flatMap((run) => (run[field] === undefined ? [] : [run[field]])))].join(
        ', ',
      ),
    );
    return a === b ? [] : [`${name} (${a || 'not stated'}, then ${b || 'not stated'})`];
  });
  return differ.length === 0
    ? []
    : [`Not the same before and after: ${differ.join('; ')}. Weigh what of it was the change.`];
}
