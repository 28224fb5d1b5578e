import { OTHER_CAUSES, type OtherCause } from '../../survey/causes/otherCauses.ts';
import type { Found } from '../../survey/kinds/cause.ts';
import type { BodyOf } from '../../survey/kinds/kinds.ts';

export type Finding = Found | 'NOT CHECKED';

/** A cause with what was found of it. */
export interface CauseNow extends OtherCause {
  readonly found: Finding;
  readonly said?: BodyOf<'cause'>;
}

const PLACE: readonly Finding[] = ['NOT CHECKED', 'is the cause', 'contributes', 'ruled out'];

/** The other causes in the order in which to take them: those not checked first. Among these what takes least trouble for
 *  the complaint: its test's trouble (1 to 4), 1 more where it only sometimes does this, 3 more where it does not, 2 less
 *  where something that bears on it was changed lately. A house default, from common practice. */
export function orderCauses(
  complaint: BodyOf<'complaint'> | undefined,
  findings: ReadonlyMap<string, BodyOf<'cause'>>,
): readonly CauseNow[] {
  const does = complaint?.does ?? [];
  const changed = complaint?.changed ?? [];
  const trouble = ({ takes, often, sometimes, after }: OtherCause): number => {
    const fit =
      does.length === 0 || does.some((what) => often.includes(what))
        ? 0
        : does.some((what) => sometimes.includes(what))
          ? 1
          : 3;
    return takes + fit - (changed.some((what) => after.includes(what)) ? 2 : 0);
  };
  return OTHER_CAUSES.map((cause): CauseNow => {
    const said = findings.get(cause.cause);
    return { ...cause, found: said?.found ?? 'NOT CHECKED', ...(said && { said }) };
  }).sort((a, b) => PLACE.indexOf(a.found) - PLACE.indexOf(b.found) || trouble(a) - trouble(b));
}

const FIRST: Readonly<Record<string, string>> = {
  porpoises: 'Trim the drive in step by step, tabs up. If it goes on, carry sandbags forward.',
  ploughs: 'Tabs all the way up, then trim the drive out step by step.',
  'slow to plane':
    'Tabs up and the drive trimmed in; pump the bilge dry; then carry sandbags forward.',
  lists: 'Pump the bilge dry, tabs up on both sides, and even out the load across the boat.',
  pulls:
    'Tabs up on both sides, the load even across the boat; feel whether drive trim changes it.',
  ventilates: 'Trim the drive in and turn gently; then look at the height of the engine.',
};

/** The first thing to try, before any figure is known: always one that can be undone. Common practice, no source. */
export function firstTry(does: readonly string[]): readonly string[] {
  const said = does.flatMap((what) => (Object.hasOwn(FIRST, what) ? [FIRST[what]] : []));
  return said.length === 0
    ? [
        'Tabs up, the drive trimmed in, then sandbags carried forward: one at a time, and see what it does.',
      ]
    : [...new Set(said)];
}
