import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

import { yardRow, type YardHull } from '../../../web/views/yardRows.ts';
import { ALL_BY_NAME, narrows, SORTS, yardShown } from '../../../web/views/yardShown.ts';

const asked = { today: '2026-05-04', checkEvery: 12 };

function hull(name: string, more: Partial<YardHull> = {}): YardHull {
  return {
    hull: name.toLowerCase().padEnd(12, '0'),
    name,
    invented: true,
    surveys: 1,
    lastSurvey: { date: '2026-03-14' },
    verdict: [{ word: 'Fair', lines: 4 }],
    moved: { outcome: 'one survey only' },
    dirty: false,
    ...more,
  };
}

const fresh = { surveys: 0, verdict: [], lastSurvey: {} };
const HULLS = [
  hull('Zebra 10', {
    lastSurvey: { date: '2025-05-20' },
    moved: { outcome: 'not moved', since: '2024-05-01', lines: [], compared: 4 },
  }),
  hull('émeu', {
    verdict: [
      { word: 'Hook', lines: 1 },
      { word: 'Fair', lines: 3 },
    ],
    lastSurvey: { date: '2024-02-29' },
    moved: { outcome: 'moved', since: '2023-02-28', lines: ['P450'], compared: 4 },
  }),
  hull('Zebra 9', { verdict: [{ word: 'Hook and rocker', lines: 4 }] }),
  hull('Ant', fresh),
  hull('bee', {
    verdict: [
      { word: 'Undecided', lines: 1 },
      { word: 'Fair', lines: 3 },
    ],
    moved: { outcome: 'not compared', why: ['support'] },
  }),
  hull('Cat', { dirty: true }),
];
const rows = HULLS.map((each) => yardRow(each, asked));
const names = (choices: Partial<typeof ALL_BY_NAME> = {}) =>
  yardShown(rows, { ...ALL_BY_NAME, ...choices }).map(({ name }) => name);

describe('the order of the yard', () => {
  test('by name minds neither case nor accents, and takes numbers by their size', () => {
    expect(names()).toEqual(['Ant', 'bee', 'Cat', 'émeu', 'Zebra 9', 'Zebra 10']);
    expect(names({ turned: true })).toEqual(['Zebra 10', 'Zebra 9', 'émeu', 'Cat', 'bee', 'Ant']);
  });

  test('by survey has the latest first, and hulls without one last either way', () => {
    expect(names({ sort: 'survey' })).toEqual([
      ...['bee', 'Cat', 'Zebra 9', 'Zebra 10'],
      ...['émeu', 'Ant'],
    ]);
    expect(names({ sort: 'survey', turned: true })).toEqual([
      ...['émeu', 'Zebra 10', 'bee', 'Cat'],
      ...['Zebra 9', 'Ant'],
    ]);
  });

  test('by verdict has the gravest first, and what is not judged last', () => {
    expect(names({ sort: 'verdict' })).toEqual([
      ...['Zebra 9', 'émeu', 'bee', 'Zebra 10'],
      ...['Ant', 'Cat'],
    ]);
  });

  test('by movement has what moved first, then what cannot be told', () => {
    expect(names({ sort: 'moved' }).slice(0, 3)).toEqual(['émeu', 'bee', 'Zebra 10']);
  });

  test('by check has the longest due first', () => {
    expect(names({ sort: 'due' })).toEqual(['émeu', 'Zebra 10', 'bee', 'Cat', 'Zebra 9', 'Ant']);
  });

  test('does not depend on the order in which the hulls came', () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray(rows, { minLength: rows.length }),
        fc.constantFrom(...SORTS),
        fc.boolean(),
        (mixed, sort, turned) => {
          const choices = { ...ALL_BY_NAME, sort, turned };
          expect(yardShown(mixed, choices)).toEqual(yardShown(rows, choices));
        },
      ),
    );
  });
});

describe('what the yard is narrowed to', () => {
  test('is a word on any line, but fair on every one', () => {
    expect(names({ verdict: 'hook' })).toEqual(['émeu', 'Zebra 9']);
    expect(names({ verdict: 'rocker' })).toEqual(['Zebra 9']);
    expect(names({ verdict: 'undecided' })).toEqual(['bee']);
    expect(names({ verdict: 'fair' })).toEqual(['Zebra 10']);
    expect(names({ verdict: 'none' })).toEqual(['Ant']);
  });

  test('is what moved, or cannot be told to have', () => {
    expect(names({ moved: 'moved' })).toEqual(['émeu']);
    expect(names({ moved: 'cannot tell' })).toEqual(['bee']);
  });

  test('is what is due; what comes up is not due yet', () => {
    expect(names({ due: 'due' })).toEqual(['émeu']);
    expect(names({ due: 'comes up' })).toEqual(['émeu', 'Zebra 10']);
    expect(names({ due: 'not due' })).toEqual(['bee', 'Cat', 'Zebra 9', 'Zebra 10']);
    expect(names({ due: 'not measured' })).toEqual(['Ant']);
  });

  test('is all of it together', () => {
    expect(names({ search: 'zebra', verdict: 'fair' })).toEqual(['Zebra 10']);
    expect(names({ search: 'emeu', verdict: 'fair' })).toEqual([]);
  });

  test('is nothing less than all where nothing is asked', () => {
    expect(narrows(ALL_BY_NAME)).toBe(false);
    expect(narrows({ ...ALL_BY_NAME, search: '  ', sort: 'due', turned: true })).toBe(false);
    for (const one of [{ search: 'a' }, { moved: 'moved' }, { due: 'due' }] as const) {
      expect(narrows({ ...ALL_BY_NAME, ...one })).toBe(true);
    }
  });
});
