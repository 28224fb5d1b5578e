import { trialNameOf, UNNAMED } from '../../survey/causes/trialName.ts';
import type { Stated } from '../../survey/fold/readStanding.ts';
import type { BodyOf } from '../../survey/kinds/kinds.ts';
import { pairWords } from './trialBegins.ts';
import type { SpeedUnit } from '../speedUnits.ts';

/** Runs under one name, in the order in which they were written down. */
export interface SeaTrial {
  readonly name: string;
  readonly runs: readonly Stated<'sea trial'>[];
}

/** Two trials, before and after a change. */
export interface TrialPair {
  /** Of the entry that pairs them; absent where runs say by themselves that they belong before and after one change. */
  readonly id?: string;
  readonly before: SeaTrial;
  readonly after: SeaTrial;
  readonly change: string;
  readonly words: readonly string[];
}

type Pairs = readonly Stated<'trial pair'>[];

/** The trials of a survey, in the order in which their names first come; one that only a pair names has no runs yet. */
export function trialsOf(runs: readonly Stated<'sea trial'>[], pairs: Pairs): readonly SeaTrial[] {
  const named = [
    ...runs.map(({ id, body }) => ({ id, names: [trialNameOf(body)] })),
    ...pairs.map(({ id, body: { before, after } }) => ({ id, names: [before, after] })),
  ].sort((a, b) => (a.id < b.id ? -1 : 1));
  const names = [...new Set(named.flatMap((each) => each.names))];
  return names.map((name) => ({
    name,
    runs: runs.filter(({ body }) => trialNameOf(body) === name),
  }));
}

/** Every pair that somebody named, the last first said of the same two trials; before them what runs without a trial's name
 *  make by themselves. */
export function pairsOf(
  trials: readonly SeaTrial[],
  pairs: Pairs,
  unit: SpeedUnit,
): readonly TrialPair[] {
  const called = (name: string) => trials.find((trial) => trial.name === name);
  const told = (body: BodyOf<'trial pair'>, id?: string): readonly TrialPair[] => {
    const [before, after] = [called(body.before), called(body.after)];
    if (before === undefined || after === undefined) return [];
    const bodies = ({ runs }: SeaTrial) => runs.map((run) => run.body);
    const named = id === undefined ? undefined : `“${body.change}”`;
    return [
      {
        ...(id !== undefined && { id }),
        before,
        after,
        change: body.change,
        words: pairWords(bodies(before), bodies(after), unit, named),
      },
    ];
  };
  return [
    ...told({ ...UNNAMED, change: 'the change' }),
    ...pairs.flatMap(({ id, body }) => told(body, id)),
  ];
}
