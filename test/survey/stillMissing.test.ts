import { describe, expect, it } from 'vitest';

import { stillMissing } from '../../src/survey/stillMissing.ts';
import type { Placement, Survey } from '../../src/survey/survey.ts';
import { mm } from './fold/samples.ts';

const empty: Survey = { conditions: {}, support: [], workUnit: 'mm', kind: 'hand', lines: [] };
const whole: Survey = {
  ...empty,
  support: [{ what: 'stands', engine: 'hung', checkedBy: 'Yard hand' }],
  transomRadius: 0,
  conditions: {
    hauled: '2026-05-04 08:00',
    'days afloat before': '6',
    'last long-term support': 'trailer',
    'bunks ended at': '10 in',
    surface: 'bare',
    'tabs and pockets': 'none',
    Sun: 'none',
    temperature: '18 C',
  },
};
const placement: Placement = {
  id: 'p',
  name: '1',
  repeat: 1,
  held: 'resting',
  readings: [],
  voids: [],
  later: [{ station: mm(300, '300'), reason: 'a stand in the way', source: 'x' }],
};
const lineWith = (...placements: Placement[]): Survey => ({
  ...whole,
  lines: [{ id: 'L', name: 'P300mm', side: 'port', offset: 300, placements }],
});

describe('stillMissing', () => {
  it('asks an empty survey for everything that cannot be had later', () => {
    expect(stillMissing(empty).map(({ about }) => about)).toEqual([
      'support',
      'transom radius',
      'hauled',
      'days afloat before',
      'last long-term support',
      'bunks ended at',
      'surface',
      'tabs and pockets',
      'sun',
      'temperature',
    ]);
  });

  it('asks for nothing when all is stated, a sharp transom edge too', () => {
    expect(stillMissing(whole)).toEqual([]);
  });

  it('takes an empty answer for none', () => {
    const conditions = { ...whole.conditions, surface: ' ' };
    expect(stillMissing({ ...whole, conditions }).map(({ about }) => about)).toEqual(['surface']);
  });

  it('asks for engine and check of every support', () => {
    const support = [...whole.support, { what: 'blocks' }];
    expect(stillMissing({ ...whole, support }).map(({ about }) => about)).toEqual([
      'engine',
      'support checked',
    ]);
  });

  it('lists a station put off until its line has been read there, or found void, on any lay', () => {
    expect(stillMissing(lineWith(placement))).toEqual([
      { about: 'station put off', ask: 'P300mm, station 300: put off (a stand in the way).' },
    ]);
    const reading = { station: mm(300), gap: mm(0), look: 1, source: 'y' };
    const again = { ...placement, id: 'q', repeat: 2, later: [] };
    expect(stillMissing(lineWith(placement, { ...again, readings: [reading] }))).toEqual([]);
    const elsewhere = { ...reading, station: mm(301) };
    expect(stillMissing(lineWith(placement, { ...again, readings: [elsewhere] }))).toHaveLength(1);
    const voids = [{ station: mm(300), reason: 'strake', source: 'y' }];
    expect(stillMissing(lineWith({ ...placement, voids }))).toEqual([]);
  });

  it('lists a line put off across the lines until it has been read there', () => {
    const survey = lineWith({ ...placement, later: [] });
    const at = { line: survey.lines[0]?.id ?? '', station: mm(300) };
    const across = {
      id: 'a',
      side: 'port',
      direction: 'athwart',
      name: '1',
      repeat: 1,
      held: 'resting',
      readings: [],
      voids: [],
      later: [{ ...at, reason: 'a stand in the way', source: 'l' }],
    } as const;
    expect(stillMissing({ ...survey, across: [across] }).map(({ ask }) => ask)).toEqual([
      'P300mm, station 300, across to port, athwart: put off (a stand in the way).',
    ]);
    const readings = [{ ...at, gap: mm(0), look: 1, source: 'r' }];
    expect(stillMissing({ ...survey, across: [{ ...across, readings }] })).toEqual([]);
  });
});
