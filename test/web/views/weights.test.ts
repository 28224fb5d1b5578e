import { describe, expect, test } from 'vitest';
import { ledgerOf } from '../../../src/running/fold/ledgerOf.ts';
import { loadOf } from '../../../src/running/weights/loads.ts';
import { TYPICAL_ITEMS } from '../../../src/running/weights/typicalItems.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { demoWeights } from '../../../web/store/demoWeights.ts';
import { bringBackView } from '../../../web/views/bringBackView.ts';
import { ledgerRows, ledgerSays, loadRows } from '../../../web/views/ledgerView.ts';
import {
  changeOf,
  EMPTY_FORM,
  formOf,
  typicalMass,
  weightBody,
} from '../../../web/views/weightForm.ts';
import { entriesOf, mm } from '../../survey/fold/samples.ts';

const units = { length: 'in', mass: 'lb' } as const;
const ledger = ledgerOf(entriesOf(demoWeights()));
const now = loadOf(ledger.items, 'as now');
if (!now.ok) throw new Error(now.reason);

describe('the ledger on the screen', () => {
  test('shows each item as it was typed, a move with both of its places', () => {
    const rows = ledgerRows(ledger);
    expect(rows.map(({ act }) => act)).toEqual([
      'aboard',
      'removed, as now',
      'added, as now',
      'moved, as now',
      'added, as proposed',
    ]);
    expect(rows[0]).toMatchObject({ mass: '5100 to 5300 lb', forward: '83 to 85 in' });
    expect(rows[3].forward).toBe('110 in → 10 in');
  });

  test('gives loads and their shift with what they may be out by', () => {
    const rows = loadRows(ledger.items, units);
    expect(rows.map(({ state, lcg }) => [state, lcg])).toEqual([
      ['As designed', '84.0 in ± 1.2 in'],
      ['As now', '72.8 in ± 1.1 in'],
      ['As proposed', '77.2 in ± 1.1 in'],
    ]);
    expect(rows[1].shift).toMatch(
      /^LCG 11\.2 in ± 0\.2 in aft; VCG 0\.2 in .* up; 310 lb heavier$/,
    );
  });

  test('calls a load that nothing changes just that', () => {
    expect(loadRows(ledger.items.slice(0, 1), units)).toMatchObject([
      { state: 'As listed', shift: '' },
    ]);
  });

  test('says what lacks, and what that would add', () => {
    const part = ledgerOf(entriesOf([draftOf('weight item', { name: 'tank', act: 'aboard' })]));
    expect(ledgerRows(part)[0]).toMatchObject({
      mass: 'not known',
      lacks: 'not counted yet: mass, place not known',
    });
    expect(ledgerSays(part, units).told).toMatch(/^Nothing can be told yet. A test with sandbags/);
    expect(ledgerSays(part, units).next[0]).toBe(
      'The mass and the place of “tank”: tells LCG with it.',
    );
  });
});

describe('bringing LCG back', () => {
  const back = bringBackView(now, 84 * 25.4, {
    x: 230 * 25.4,
    foremost: 288 * 25.4,
    lines: ledger.lines,
    units,
  });

  // w = W (target − LCG) / (x − target) = 5510 lb × (84 − 72.8 in) / (230 − 84 in) = 424 lb.
  test('tells the mass at a place and what it costs', () => {
    expect(back.aim).toMatch(
      /^LCG as now lies 11\.2 in ± 1\.1 in aft of where it should be, 84\.0 in/,
    );
    expect(back.mass).toMatch(/^Carry 425 lb ± 45 lb at 230 in forward of the transom\./);
    expect(back.mass).toContain('the boat then weighs 5930 lb');
  });

  test('tells the move of what is aboard as now, at its new place, and never of the hull or what is gone', () => {
    expect(back.moves.map(({ name }) => name)).toEqual([
      'two new engines with bracket, 1130 lb',
      'batteries',
    ]);
    expect(back.moves[0].says).toMatch(/^54\.7 in ± 5\.\d in forward, to about 28 1\/2 in forward/);
    expect(back.moves[1].says).toBe('would not do: it would have to stand beyond the bow');
  });

  test('says nothing of a mass where no place is given, and refuses one at the target', () => {
    const more = { foremost: undefined, lines: ledger.lines, units };
    expect(bringBackView(now, 84 * 25.4, more).mass).toBeUndefined();
    expect(bringBackView(now, 84 * 25.4, { ...more, x: 84 * 25.4 }).mass).toMatch(/not told/);
  });
});

describe('the form of an item', () => {
  test('needs a name and nothing else', () => {
    expect(weightBody(EMPTY_FORM)).toMatchObject({ ok: false });
    expect(weightBody({ ...EMPTY_FORM, name: ' tank ' })).toEqual({
      ok: true,
      body: { name: 'tank', act: 'aboard' },
    });
  });

  test('gives back every item that it was opened with, further fields too', () => {
    for (const line of ledger.lines) {
      const body = { ...line.body, later: 'kept' };
      expect(weightBody(formOf(line), body)).toEqual({ ok: true, body });
    }
  });

  test('writes a removal of the thing itself, with its place and without a mass of its own', () => {
    const [boat] = ledger.lines;
    const read = weightBody(changeOf(boat, 'removed'));
    expect(read).toMatchObject({ ok: true, body: { thing: boat.id, from: boat.body.at } });
    expect(read.ok && read.body.mass).toBe(undefined);
  });

  test('takes a mass from the list as a range, marked, and no longer once it is typed', () => {
    const petrol = TYPICAL_ITEMS.find(({ name }) => name === 'petrol');
    if (petrol === undefined) throw new Error('petrol');
    const mass = typicalMass(petrol, 200, 'kg');
    expect(mass).toEqual({ kg: { low: 144, high: 156 }, text: '144 to 156 kg' });
    expect(typicalMass(petrol, 0, 'kg')).toBeUndefined();
    const form = { ...EMPTY_FORM, name: 'petrol', mass, typical: true, x: mm(900) };
    expect(weightBody(form)).toMatchObject({ body: { typical: true } });
    expect(weightBody({ ...form, mass: undefined })).not.toHaveProperty('body.typical');
  });
});
