import { describe, expect, test } from 'vitest';
import { gaugeInHand, gaugesInHand } from '../../../web/views/gaugeView.ts';
import { inFull, keypadKeys, typed } from '../../../web/views/keypadView.ts';
import { withUnit } from '../../../src/survey/withUnit.ts';
import { inColumn, inWorkUnit, readGap } from '../../../web/views/readingText.ts';
import { savingWords } from '../../../web/views/savingWords.ts';
import { readStations, writeStations } from '../../../web/views/stationsView.ts';
import { gaugeBody } from '../../../web/views/setupView.ts';

const gauge = (division: string, workUnit: 'mm' | 'in' = 'in') => {
  const body = gaugeBody(division, 'nearest mark');
  if (body === undefined) throw new Error(`no gauge: ${division}`);
  return gaugeInHand({ id: division, ...body }, workUnit);
};
const rule = gauge('1/32 in');

test('a length that a file has in mm is shown in the unit of the survey where it comes out even', () => {
  expect(inWorkUnit({ mm: 762, text: '762 mm' }, 'in')).toBe('30 in');
  expect(inWorkUnit({ mm: 152.4, text: '6' }, 'in')).toBe('6 in');
  expect(inWorkUnit({ mm: 20, text: '20 mm' }, 'in')).toBe('20 mm');
  expect(inWorkUnit({ mm: 508, text: '20 in' }, 'mm')).toBe('508 mm');
  expect(inWorkUnit({ mm: 3.175, text: '1/8 in' }, 'mm')).toBe('1/8 in');
  expect(inWorkUnit({ mm: 0, text: '0 mm' }, 'in')).toBe('0 in');
});

describe('a cell read with the gauge in hand', () => {
  test('takes 5 for 5/32 with a rule in 32nds, and keeps it in full', () => {
    expect(readGap('5', rule, { held: 'resting' }, 'in')).toEqual({
      is: 'gap',
      gap: { mm: (5 * 25.4) / 32, text: '5/32' },
      unit: '1/32 in',
      inFull: '5/32 in',
    });
    expect(readGap('37', rule, {}, 'in')).toMatchObject({ gap: { text: '1 5/32' } });
  });

  test('takes a fraction of another denominator as it is written', () => {
    expect(readGap('3/16', rule, {}, 'in')).toMatchObject({ gap: { mm: 4.7625, text: '3/16' } });
  });

  test('takes a typed 0 for a contact and nothing for nothing', () => {
    expect(readGap('0', rule, {}, 'in')).toMatchObject({ is: 'gap', gap: { mm: 0 } });
    expect(readGap('  ', rule, {}, 'in')).toEqual({ is: 'empty' });
  });

  test('keeps the unit in the text where it is not the survey’s', () => {
    const read = readGap('2.4', gauge('0.1 mm'), {}, 'in');
    expect(read).toMatchObject({ gap: { mm: 2.4, text: '2.4 mm' }, unit: 'mm' });
  });

  test('refuses what a file’s cell would be refused for, in the same words', () => {
    const words = (text: string, lay = {}, by = rule) => {
      const read = readGap(text, by, lay, 'in');
      return read.is === 'refused' ? read.words : read.is;
    };
    expect(words('-4')).toBe(
      'Found “-4/32”, expected 0 or more, within two divisions of the gauge: an edge does not sink in.',
    );
    expect(words('2 in')).toBe('Found “2 in”, expected at most 30 mm.');
    expect(words('20 mm', { held: 'resting', edgeLength: 300 })).toMatch(
      /more than a straightedge 300 mm long/,
    );
    expect(words('60 mm', { held: 'blocks', block: 25.4 })).toMatch(
      /past the block height of 25.4 mm/,
    );
    expect(words('-1', { held: 'blocks', block: 25.4 })).toMatch(/on blocks the edge stands clear/);
    expect(words('seven')).toMatch(/^Found “seven”, expected a length/);
    expect(words('2.5')).toMatch(/a whole number of 1\/32 in/);
  });
});

describe('lengths shown', () => {
  test('name the unit in which the text comes to those mm', () => {
    expect(withUnit({ mm: 76.2, text: '3' }, 'in')).toBe('3 in');
    expect(withUnit({ mm: 3, text: '3' }, 'in')).toBe('3 mm');
    expect(withUnit({ mm: 1, text: 'what was that' }, 'in')).toBe('1 mm');
  });
  test('leave it out in a column that has it in its head', () => {
    expect(inColumn({ mm: 76.2, text: '3 in' }, 'in')).toBe('3');
    expect(inColumn({ mm: 3, text: '3 mm' }, 'in')).toBe('3 mm');
  });
});

describe('the gauges that can be taken up', () => {
  const body = gaugeBody('0.05 mm', 'last leaf');
  const leaves = { id: 'leaves', name: 'leaves', ...body };

  test('begin with the lay’s own, even where nobody named it', () => {
    const [first, second] = gaugesInHand([leaves], undefined, { division: 25.4 / 32 }, 'in');
    expect([first.short, first.denominator, second.id]).toEqual(['1/32 in', 32, 'leaves']);
    expect(gaugesInHand([leaves], 'leaves', undefined, 'in').map(({ id }) => id)).toEqual([
      'leaves',
    ]);
  });

  test('a division in mm sets no denominator, though it is a whole part of an inch', () => {
    expect(gauge('0.1 mm').denominator).toBeUndefined();
    expect(gaugesInHand([], undefined, { division: 0.1 }, 'in')[0].denominator).toBeUndefined();
  });

  test('what is no division makes no gauge', () => {
    for (const text of ['', '32', '1/32', '0 mm', '1/4 ft'])
      expect(gaugeBody(text, 'nearest mark')).toBeUndefined();
  });
});

describe('the keypad', () => {
  const labels = (division: string) =>
    keypadKeys(gauge(division))
      .flat()
      .map(({ label }) => label);

  test('has every digit, and for each gauge the marks that its figures need', () => {
    for (const division of ['1/32 in', '0.1 mm']) {
      for (let digit = 0; digit <= 9; digit += 1) expect(labels(division)).toContain(String(digit));
    }
    expect(labels('1/32 in')).toContain('/');
    expect(labels('0.1 mm')).toContain('.');
    expect(labels('0.1 mm')).not.toContain('/');
  });

  test('writes at the end and erases from it', () => {
    const keys = keypadKeys(rule).flat();
    const press = (text: string, label: string) => {
      const key = keys.find((each) => each.label === label);
      if (key === undefined) throw new Error(label);
      return typed(text, key);
    };
    expect(press(press('', '1'), '2')).toBe('12');
    expect(press('12', '⌫')).toBe('1');
    expect(press('', '⌫')).toBe('');
    expect(press('12', 'Void')).toBe('12');
  });

  test('shows in full what would be saved, and nothing while it is no length', () => {
    expect(inFull('5', rule, 'in')).toBe('5/32 in');
    expect(inFull('1/', rule, 'in')).toBe('');
    expect(inFull('', rule, 'in')).toBe('');
  });
});

describe('a list of stations', () => {
  test('may be uneven and in any order, and is written back as it is read', () => {
    const read = readStations('12.5, 0; 3\n6 in', 'in');
    if (!read.ok) throw new Error(read.words);
    expect(read.stations.map(({ mm }) => mm)).toEqual([0, 76.2, 152.4, 317.5]);
    expect(writeStations(read.stations, 'in')).toBe('0, 3, 6, 12.5');
    expect(readStations(writeStations(read.stations, 'in'), 'in')).toEqual(read);
  });
  test('is refused with what is wrong in it', () => {
    expect(readStations('0, 3, 76.2 mm', 'in')).toMatchObject({
      words: 'Found “76.2 mm” twice, expected each station once.',
    });
    expect(readStations('0, x', 'in')).toMatchObject({ ok: false });
    expect(readStations(' , ', 'in')).toMatchObject({ ok: false });
  });
});

test('saving is told no better than the database told it', () => {
  expect(savingWords({ pending: 0 }).words).toBe('saved');
  expect(savingWords({ pending: 2 }).words).toBe('saving…');
  expect(savingWords({ pending: 2, failure: { words: 'full' } }).words).toBe(
    'NOT saved (2): kept here, trying again',
  );
  expect(savingWords({ pending: 0, failure: { words: 'full' } }).state).toBe('saved');
});
