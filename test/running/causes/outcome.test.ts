import { describe, expect, it } from 'vitest';
import { engineHeight } from '../../../src/running/causes/engineHeight.ts';
import { firstTry, orderCauses } from '../../../src/running/causes/orderCauses.ts';
import { outcomeOf } from '../../../src/running/causes/outcome.ts';
import type { Agreement } from '../../../src/survey/causes/agreement.ts';
import { OTHER_CAUSES } from '../../../src/survey/causes/otherCauses.ts';
import type { Found } from '../../../src/survey/kinds/cause.ts';
import { COMPLAINTS } from '../../../src/survey/kinds/complaint.ts';
import type { BodyOf } from '../../../src/survey/kinds/kinds.ts';

const findings = (found: Readonly<Record<string, Found>>) =>
  new Map(Object.entries(found).map(([cause, is]) => [cause, { cause, found: is }]));
const all = (found: Found) =>
  Object.fromEntries(OTHER_CAUSES.map(({ cause }) => [cause, found] as const));
const names = (...from: Parameters<typeof orderCauses>) =>
  orderCauses(...from).map(({ cause }) => cause);
const bottom = (says: Agreement['says']): Agreement => ({ says, words: '' });
const after = (found: Readonly<Record<string, Found>>, says: Agreement['says']) =>
  outcomeOf(orderCauses({ does: ['porpoises'] }, findings(found)), bottom(says));

describe('the order of the other causes', () => {
  it('loses none, whatever the boat does', () => {
    const every = OTHER_CAUSES.map(({ cause }) => cause).sort();
    for (const what of COMPLAINTS) {
      expect([...names({ does: [what] }, new Map())].sort()).toEqual(every);
    }
  });

  it('begins with the drive trim where it porpoises, with the bilge where it lists', () => {
    expect(names({ does: ['porpoises'] }, new Map())[0]).toBe('drive trim');
    expect(names({ does: ['lists'] }, new Map())[0]).toBe('water in bilge or foam');
  });

  it('moves up what bears on a change made lately', () => {
    const place = (changed: BodyOf<'complaint'>['changed']) =>
      names({ does: ['porpoises'], ...(changed && { changed }) }, new Map()).indexOf('weight aft');
    expect(place(['batteries'])).toBeLessThan(place(undefined));
    expect(
      names({ does: ['ventilates'], changed: ['propeller'] }, new Map()).indexOf('propeller'),
    ).toBeLessThan(names({ does: ['ventilates'] }, new Map()).indexOf('propeller'));
  });

  it('puts what was ruled out behind, and goes on to weight once trim and water are', () => {
    const found = findings({ 'drive trim': 'ruled out', 'water in bilge or foam': 'ruled out' });
    const order = names({ does: ['porpoises'] }, found);
    expect(order[0]).toBe('weight aft');
    expect(order.slice(-2).sort()).toEqual(['drive trim', 'water in bilge or foam']);
  });

  it('has a first thing to try for every complaint, and for none', () => {
    for (const what of COMPLAINTS) expect(firstTry([what])).toHaveLength(1);
    expect(firstTry([])).toHaveLength(1);
    expect(firstTry(['porpoises'])[0]).toMatch(/^Trim the drive in .*sandbags forward/);
  });
});

describe('the outcome', () => {
  it('never blames the bottom while another cause is unchecked', () => {
    const open = { ...all('ruled out') } as Record<string, Found>;
    delete open['propeller'];
    const outcome = after(open, 'agrees');
    expect(outcome).toMatchObject({ is: 'test first', next: { cause: 'propeller' } });
    expect(outcome.words).toContain('Leave the bottom alone');
  });

  it('stops at a cause that was found, though others are unchecked', () => {
    const outcome = after({ 'weight aft': 'is the cause' }, 'opposes');
    expect(outcome).toMatchObject({ is: 'cause found', remains: ['weight aft'] });
    expect(outcome.next).toBeUndefined();
  });

  it('has what contributes put right before the bottom is judged', () => {
    expect(after({ ...all('ruled out'), propeller: 'contributes' }, 'agrees')).toMatchObject({
      is: 'help first',
      remains: ['propeller', 'the bottom'],
    });
  });

  it('leaves the bottom only where it agrees; else nothing explains it, or it is to be measured', () => {
    const ruledOut = all('ruled out');
    expect(after(ruledOut, 'agrees').is).toBe('bottom remains');
    expect(after(ruledOut, 'opposes').words).toContain('Do not work on it');
    expect(after(ruledOut, 'does not explain it').words).toContain('Do not work on it');
    for (const says of ['not decided', 'nothing measured'] as const) {
      expect(after(ruledOut, says).words).toContain('measure the bottom');
    }
    expect(after(ruledOut, 'nothing complained of').words).toMatch(
      /^Every other cause is ruled out\. What the boat does is not stated: say it/,
    );
  });
});

describe('the engine’s height by rule of thumb (common practice, no source)', () => {
  const INCH = 25.4;
  it('wants the plate level at the transom, and 2 to 3 in up at 24 in of setback', () => {
    expect(engineHeight(0, 0).says).toBe('about right');
    expect(engineHeight(24 * INCH, 2.5 * INCH)).toEqual({
      says: 'about right',
      low: expect.closeTo(2 * INCH, 9) as unknown,
      high: expect.closeTo(3 * INCH, 9) as unknown,
      by: 0,
    });
    expect(engineHeight(24 * INCH, 0)).toMatchObject({
      says: 'low',
      by: expect.closeTo(2 * INCH, 9) as unknown,
    });
    expect(engineHeight(0, 2 * INCH)).toMatchObject({
      says: 'high',
      by: expect.closeTo(2 * INCH, 9) as unknown,
    });
  });

  it('refuses a setback below 0 and a figure that is none', () => {
    expect(() => engineHeight(-1, 0)).toThrow(RangeError);
    expect(() => engineHeight(0, NaN)).toThrow(RangeError);
  });
});
