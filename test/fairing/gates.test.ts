import { describe, expect, it } from 'vitest';
import {
  gatesOf,
  NO_STATEMENTS,
  reasonWords,
  type GateStatements,
} from '../../src/fairing/gates.ts';
import { OTHER_CAUSES } from '../../src/survey/causes/otherCauses.ts';
import { assess } from '../../src/survey/assess.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { sampleSurvey } from '../web/sheets/samples.ts';

const INCH = 25.4;
const story = (name: string) =>
  assess(sampleSurvey(`stories/${name}`), { tolerance: INCH / 16, over: 60 * INCH });
const oneSide = story('one-side');

function said(
  answers: Readonly<Record<string, 'yes' | 'no'>>,
  more: Partial<GateStatements> = {},
): GateStatements {
  return {
    gates: new Map(Object.entries(answers).map(([gate, answer]) => [gate, { gate, answer }])),
    causes: new Map(
      OTHER_CAUSES.map(({ cause }): [string, BodyOf<'cause'>] => [
        cause,
        { cause, found: 'ruled out' },
      ]),
    ),
    ...more,
  };
}
const SOUND = {
  sounded: 'yes',
  flex: 'no',
  moisture: 'no',
  'stringers and transom': 'yes',
} as const;
const fill: BodyOf<'decision'> = { choice: 'fill', by: 'Owner (invented)', signed: 'on paper' };

describe('the gates before any work', () => {
  it('take nothing as checked that nobody stated', () => {
    const { go, gates, causes, why } = gatesOf(oneSide, NO_STATEMENTS);
    expect(go).toBe('not yet');
    expect(gates.every(({ answer, passed }) => answer === 'NOT CHECKED' && !passed)).toBe(true);
    expect(causes.every(({ found }) => found === 'NOT CHECKED')).toBe(true);
    expect(why.map(reasonWords).join(' ')).toContain('The owner has to choose and sign');
  });

  it('let the work go once all is sound, other causes are ruled out and the owner has signed', () => {
    expect(gatesOf(oneSide, said(SOUND, { decision: fill }))).toMatchObject({ go: 'go', why: [] });
  });

  it('stop at soft, wet or flexing structure, whatever else was answered', () => {
    for (const bad of [
      { sounded: 'no' },
      { flex: 'yes' },
      { moisture: 'yes' },
      { 'stringers and transom': 'no' },
    ] as const) {
      const { go, why } = gatesOf(oneSide, said({ ...SOUND, ...bad }, { decision: fill }));
      expect(go).toBe('stop');
      expect(why.map(reasonWords)).toEqual([expect.stringContaining('qualified marine surveyor')]);
    }
  });

  it('ask for a second edge and the builder’s word where lines are alike, and leave a moulded shape', () => {
    const wedge = story('moulded-wedge');
    const asked = gatesOf(wedge, said(SOUND, { decision: fill }));
    expect(asked.go).toBe('not yet');
    expect(asked.gates.map(({ gate }) => gate)).toEqual(
      expect.arrayContaining(['second edge', 'builder']),
    );
    const moulded = said({ ...SOUND, 'second edge': 'yes', builder: 'yes' }, { decision: fill });
    const left = gatesOf(wedge, moulded);
    expect(left.go).toBe('stop');
    expect(left.why.map(reasonWords)).toEqual([expect.stringContaining('builder’s own')]);
    expect(gatesOf(oneSide, said(SOUND)).gates.map(({ gate }) => gate)).not.toContain('builder');
  });

  it('have a boat from bunks wait for days afloat: filled on the first day it would become a hump', () => {
    const fresh = story('bunk-hook-hour-3');
    const no = gatesOf(fresh, said({ ...SOUND, 'days afloat': 'no' }, { decision: fill }));
    expect(no.go).toBe('stop');
    expect(no.why.map(reasonWords).join(' ')).toContain('survey again');
  });

  it('want a name where a hook works against porpoising', () => {
    const blamed = story('not-to-blame');
    const complaint: BodyOf<'complaint'> = { does: ['porpoises'] };
    const passed = { ...SOUND, 'second edge': 'yes', builder: 'no', 'days afloat': 'yes' } as const;
    const without = gatesOf(blamed, said(passed, { complaint, decision: fill }));
    expect(without.against?.words).toContain('works against porpoising');
    expect(without.go).toBe('not yet');
    const accepted = { ...fill, acceptsWorse: 'Owner (invented)' };
    expect(gatesOf(blamed, said(passed, { complaint, decision: accepted })).go).toBe('go');
    expect(gatesOf(blamed, said(passed, { decision: fill })).against).toBeUndefined();
  });

  it('want a name where what was measured does not explain what the boat does, and work is to be done', () => {
    const blamed = story('moulded-wedge');
    const complaint: BodyOf<'complaint'> = { does: ['lists'] };
    const passed = { ...SOUND, 'second edge': 'yes', builder: 'no', 'days afloat': 'yes' } as const;
    const without = gatesOf(blamed, said(passed, { complaint, decision: fill }));
    expect(without.against?.words).toContain('does not explain what the boat does');
    expect(without.go).toBe('not yet');
    expect(without.why.map(reasonWords).join(' ')).toContain('may not mend');
    // That it may get worse is another matter.
    const worse = { ...fill, acceptsWorse: 'Owner (invented)' };
    expect(gatesOf(blamed, said(passed, { complaint, decision: worse })).go).toBe('not yet');
    const accepted = { ...fill, acceptsUnexplained: 'Owner (invented)' };
    const open = gatesOf(blamed, said(passed, { complaint, decision: accepted }));
    expect(open.against?.acceptedBy).toBe('Owner (invented)');
    expect(open.go).toBe('go');
    // Not yet decided on every line is no explanation either; where nothing is hooked or rockered, nothing is worked.
    const undecided = gatesOf(story('not-to-blame'), said(passed, { complaint, decision: fill }));
    expect(undecided.against?.because).toBe('unexplained');
    const fair = gatesOf(story('twisted-panel'), said(passed, { complaint, decision: fill }));
    expect(fair.against).toBeUndefined();
  });

  it('stop where another cause was found, where the owner chose otherwise, and at a surveyor’s', () => {
    const weight: BodyOf<'cause'> = { cause: 'weight aft', found: 'is the cause' };
    const causes = new Map([...said({}).causes, ['weight aft', weight] as const]);
    expect(gatesOf(oneSide, said(SOUND, { causes, decision: fill })).go).toBe('stop');
    for (const choice of ['nothing', 'move weight', 'refer to a surveyor'] as const) {
      const found = gatesOf(oneSide, said(SOUND, { decision: { ...fill, choice } }));
      expect(found.go).toBe('stop');
      expect(found.referred).toBe(choice === 'refer to a surveyor');
    }
  });
});
