import type { Standing } from '../../src/book/standing.ts';
import {
  pairsOf,
  trialsOf,
  type SeaTrial,
  type TrialPair,
} from '../../src/running/causes/trials.ts';
import { trialNameOf } from '../../src/survey/causes/trialName.ts';
import { surveyKeyOf } from '../../src/survey/fold/hullOf.ts';
import { readStanding, type Stated } from '../../src/survey/fold/readStanding.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { NAMELESS, speedUnitOf } from './causesView.ts';

type Run = BodyOf<'sea trial'>;

export const SAW_WORDS = {
  steady: 'steady',
  begins: 'it begins here',
  porpoises: 'porpoises',
} as const;

/** A run as it is read: struck through where it was struck, with who, when and why. */
export interface RunLine {
  readonly id: string;
  readonly speed: string;
  readonly head: string;
  readonly rest: string;
  readonly struck?: string;
}

export interface TrialLines {
  readonly name: string;
  readonly lines: readonly RunLine[];
}

export interface TrialsView {
  readonly trials: readonly TrialLines[];
  readonly pairs: readonly TrialPair[];
  readonly unit: ReturnType<typeof speedUnitOf>;
  readonly last?: Run;
  /** Standing runs, by trial. */
  readonly standing: readonly SeaTrial[];
}

/** Every sea trial of a survey, the struck runs among the others in the order in which they were written down. */
export function trialsView({ standing, struck }: Standing, survey: string): TrialsView {
  const here = ({ kind, _id }: { readonly kind: string; readonly _id: string }) =>
    (kind === 'sea trial' || kind === 'trial pair') && surveyKeyOf(_id) === survey;
  const read = readStanding(standing.filter(here));
  const gone = struck.filter(({ entry }) => here(entry));
  const lost = readStanding(gone.map(({ entry }) => entry)).of('sea trial');
  const strikers = new Map(standing.map((entry) => [entry._id, entry]));
  const why = new Map(
    gone.map(({ entry, by }) => {
      const striker = by.map((id) => strikers.get(id)).find((each) => each !== undefined);
      const words =
        striker === undefined
          ? 'Struck.'
          : `Struck${striker.by === NAMELESS ? '' : ` by ${striker.by}`}, ${striker.at.slice(0, 10)}${striker.why === undefined ? '' : `: ${striker.why}`}.`;
      return [entry._id, words] as const;
    }),
  );
  const runs = read.of('sea trial');
  const pairs = read.of('trial pair');
  const trials = trialsOf(runs, pairs);
  const all = [...runs, ...lost].sort((a, b) => (a.id < b.id ? -1 : 1));
  const unit = speedUnitOf(runs.map(({ body }) => body));
  const last = runs.at(-1)?.body;
  return {
    trials: trialsOf(all, pairs).map(({ name, runs: own }) => ({
      name,
      lines: own.map((run) => lineOf(run, why.get(run.id))),
    })),
    pairs: pairsOf(trials, pairs, unit),
    unit,
    ...(last && { last }),
    standing: trials,
  };
}

function lineOf({ id, body }: Stated<'sea trial'>, struck: string | undefined): RunLine {
  const { revs, driveTrim, tabs, load, sea, date, time, notes } = body;
  const rest = [
    revs === undefined ? undefined : `${revs} rpm`,
    driveTrim === undefined ? undefined : `drive trim ${driveTrim}`,
    tabs === undefined ? undefined : `tabs ${tabs}`,
    load === undefined ? undefined : `load ${load}`,
    sea === undefined ? undefined : `sea ${sea}`,
    date,
    time,
    notes,
  ];
  return {
    id,
    speed: body.speed.text,
    head: `${body.speed.text}: ${SAW_WORDS[body.saw]}`,
    rest: rest.filter((part) => part !== undefined && part !== '').join(', '),
    ...(struck !== undefined && { struck }),
  };
}

/** The name that the first trial of a boat is given. */
export const FIRST_TRIAL = 'as it came';

/** Which trial a run belongs to that is written down now: the last that a run or a pair names. */
export function trialNow({
  last,
  pairs,
  trials,
}: Pick<TrialsView, 'last' | 'pairs' | 'trials'>): string {
  const after = pairs.findLast(({ id }) => id !== undefined)?.after;
  // A trial that was begun and has no run yet.
  if (after !== undefined && after.runs.length === 0) return after.name;
  if (last !== undefined) return trialNameOf(last);
  return trials.at(-1)?.name ?? FIRST_TRIAL;
}
