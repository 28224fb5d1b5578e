import { describe, expect, it } from 'vitest';
import { acceptancesBetween, holding } from '../../src/seasons/acceptances.ts';
import { controlLinesBetween } from '../../src/seasons/controlLines.ts';
import { differenceText } from '../../src/seasons/differenceText.ts';
import { repairsOf } from '../../src/seasons/repairsOf.ts';
import type { Unlike } from '../../src/seasons/unlike.ts';
import { bookOf } from '../../src/book/book.ts';
import { standing } from '../../src/book/standing.ts';
import { hullOf } from '../../src/survey/fold/hullOf.ts';
import { draftOf } from '../../src/survey/kinds/draft.ts';
import { entriesOf, mm } from '../survey/fold/samples.ts';
import { surveyOf } from '../survey/madeSurveys.ts';

const PAIR = ['svrvey000001', 'svrvey000002'] as const;
const support: Unlike = {
  what: 'support',
  first: 'stands',
  second: 'trailer',
  known: 'differs',
  accepted: false,
};
const differs = differenceText('support', [support]) ?? '';
const accept = (said = differs, surveys: readonly string[] = PAIR, what = 'support') =>
  draftOf('acceptance', { surveys: [...surveys], what, differs: said, reason: 'read twice' });

describe('an acceptance', () => {
  it('is found between its two surveys, in whichever order they are named, with who said it', () => {
    const entries = entriesOf([accept()]);
    for (const pair of [PAIR, [PAIR[1], PAIR[0]] as const]) {
      expect(acceptancesBetween(entries, pair)).toMatchObject([
        { what: 'support', reason: 'read twice', by: 'Yard hand', at: '2026-05-04T09:30:00Z' },
      ]);
    }
  });

  it('is not found between other surveys, nor for a thing that nobody here knows', () => {
    const other = ['svrvey000001', 'svrvey000003'] as const;
    expect(acceptancesBetween(entriesOf([accept()]), other)).toEqual([]);
    expect(acceptancesBetween(entriesOf([accept('x', PAIR, 'weather')]), PAIR)).toEqual([]);
  });

  it('holds while the surveys differ in just that, and lapses when they come to differ otherwise', () => {
    const all = acceptancesBetween(entriesOf([accept()]), PAIR);
    expect(holding([support], all)).toEqual({ held: all, lapsed: [] });
    const changed = { ...support, second: 'trailer, bunks to the transom' };
    expect(holding([changed], all)).toEqual({ held: [], lapsed: all });
    expect(holding([], all)).toEqual({ held: [], lapsed: all });
  });

  it('is undone by a strike', () => {
    const [entry] = entriesOf([accept()]);
    const [strike] = entriesOf(
      [draftOf('note', { text: 'x' }, { strikes: [{ entry: entry._id }] })],
      {
        from: 9,
      },
    );
    const stands = standing(bookOf([entry, strike]));
    expect(acceptancesBetween(stands.standing, PAIR)).toEqual([]);
  });
});

describe('what differs, in words', () => {
  it('says what each survey states and on which lines', () => {
    expect(differenceText('support', [{ ...support, lines: ['P450'] }])).toBe(
      'first “stands”, then “trailer” (P450)',
    );
  });

  it('is nothing where a survey is silent, or another thing differs', () => {
    expect(differenceText('support', [{ ...support, known: 'not stated' }])).toBeUndefined();
    expect(differenceText('edge', [support])).toBeUndefined();
  });
});

const lineDraft = draftOf('line', { side: 'starboard', offset: mm(450), name: 'S450' });

describe('a control line', () => {
  it('is the hull’s line, by whichever id it was named, and none that does not stand', () => {
    const [line] = entriesOf([lineDraft]);
    const { lines } = hullOf([line]);
    const named = (id: string) => draftOf('control line', { line: id, surveys: [...PAIR] });
    const entries = entriesOf([named(line._id), named('gone')], { from: 5 });
    expect(controlLinesBetween(entries, lines, PAIR)).toMatchObject([
      { line: line._id, name: 'S450' },
    ]);
    expect(controlLinesBetween(entries, lines, [PAIR[0], 'svrvey000009'])).toEqual([]);
  });
});

describe('the repairs of a hull', () => {
  it('are those of the book and those that files state, in order of time, each with the lines it worked', () => {
    const [line] = entriesOf([lineDraft]);
    const { lines } = hullOf([line]);
    const entries = entriesOf(
      [draftOf('repair', { date: '2026-05-20', what: 'filled', lines: [line._id] })],
      { from: 5 },
    );
    const filed = surveyOf([], { conditions: { repair: '2025-03-14; P450; ground' } });
    const { repairs, undated } = repairsOf(entries, lines, [filed]);
    expect(repairs.map(({ date, what, lines: on }) => [date, what, on])).toEqual([
      ['2025-03-14', 'ground', ['P450']],
      ['2026-05-20', 'filled', [line._id]],
    ]);
    expect(undated).toEqual([]);
  });

  it('without a day that can be read are told apart, not dropped', () => {
    const entries = entriesOf([draftOf('repair', { date: 'last spring', what: 'filled' })]);
    expect(repairsOf(entries, [], [])).toEqual({
      repairs: [],
      undated: ['filled (last spring)'],
    });
  });

  it('are shown as they were last put right', () => {
    const [first] = entriesOf([draftOf('repair', { date: '2026-05-20', what: 'filled' })]);
    const [second] = entriesOf(
      [draftOf('repair', { sameAs: first._id, date: '2026-05-21', what: 'filled and faired' })],
      { from: 3 },
    );
    expect(repairsOf([first, second], [], []).repairs).toEqual([
      { id: first._id, date: '2026-05-21', what: 'filled and faired' },
    ]);
  });
});
