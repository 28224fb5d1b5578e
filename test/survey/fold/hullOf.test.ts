import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { bookOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { standing } from '../../../src/book/standing.ts';
import { correctionOf, statementsOf } from '../../../src/survey/fold/correctionOf.ts';
import { hullOf, surveyKeyOf } from '../../../src/survey/fold/hullOf.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { entriesOf, idOf, mm } from './samples.ts';

const foldedHull = (entries: readonly Entry[]) => hullOf(standing(bookOf(entries)).standing);
const plover = draftOf('hull', { name: 'Plover (invented)' });
const port = draftOf('line', { side: 'port', offset: mm(300, '300 mm') });

describe('hullOf', () => {
  it('gives an empty state for no entries, and no name where none was given', () => {
    expect(hullOf([])).toEqual({
      lines: [],
      features: [],
      straightedges: [],
      gauges: [],
      remarks: [],
      disagreements: [],
      setAside: [],
    });
  });

  it('shows two standing hull entries as a disagreement, unless they say the same', () => {
    const other = draftOf('hull', { name: 'Dunlin (invented)' });
    const state = foldedHull(entriesOf([plover, other]));
    expect(state.hull?.name).toBe('Dunlin (invented)');
    expect(state.disagreements).toEqual([
      { about: 'who and what the hull is', entries: [idOf(0, 'hull'), idOf(1, 'hull')] },
    ]);
    expect(foldedHull(entriesOf([plover, plover])).disagreements).toEqual([]);
  });

  it('shows a correction alone, and the first name again when the correction is undone', () => {
    const first = entriesOf([plover]);
    const fix = correctionOf(first, [idOf(0, 'hull')], 'hull', { name: 'Dunlin (invented)' });
    const fixed = [...first, ...entriesOf([fix], { from: 1 })];
    expect(foldedHull(fixed).hull?.name).toBe('Dunlin (invented)');
    expect(foldedHull(fixed).disagreements).toEqual([]);
    const undo = draftOf('note', { text: 'undo' }, { strikes: [{ entry: idOf(1, 'hull') }] });
    expect(foldedHull([...fixed, ...entriesOf([undo], { from: 2 })]).hull?.name).toBe(
      'Plover (invented)',
    );
  });

  it('keeps what a correction of a correction struck, so that the first does not come back', () => {
    const first = entriesOf([plover]);
    const fixed = [
      ...first,
      ...entriesOf([correctionOf(first, [idOf(0, 'hull')], 'hull', { name: 'B' })], { from: 1 }),
    ];
    const twice = correctionOf(fixed, [idOf(1, 'hull')], 'hull', { name: 'C' });
    const state = foldedHull([...fixed, ...entriesOf([twice], { from: 2 })]);
    expect(state.hull?.name).toBe('C');
    expect(state.disagreements).toEqual([]);
  });

  it('keeps the id of a line through its corrections, and names it after side and offset', () => {
    const first = entriesOf([port]);
    const fix = correctionOf(first, [idOf(0, 'hull')], 'line', {
      side: 'port',
      offset: mm(450, '450 mm'),
    });
    const fixed = [...first, ...entriesOf([fix], { from: 1 })];
    const [line] = foldedHull(fixed).lines;
    expect(line).toMatchObject({ id: idOf(0, 'hull'), name: 'P450mm', offset: { mm: 450 } });
    expect(statementsOf(fixed, 'line', line.id)).toEqual([idOf(0, 'hull'), idOf(1, 'hull')]);
  });

  it('takes a line that two tablets stated alike for one, with both ids', () => {
    const state = foldedHull(entriesOf([port, port]));
    expect(state.lines).toHaveLength(1);
    expect(state.lines[0].ids).toEqual([idOf(0, 'hull'), idOf(1, 'hull')]);
    expect(state.disagreements).toEqual([]);
  });

  it('shows two limits of one line as a disagreement', () => {
    const limited = draftOf('line', { side: 'port', offset: mm(300, '300 mm'), limit: mm(900) });
    expect(foldedHull(entriesOf([port, limited])).disagreements).toEqual([
      {
        about: 'the landmark or limit of the line P300mm',
        entries: [idOf(0, 'hull'), idOf(1, 'hull')],
      },
    ]);
  });

  it('orders lines port, centre, starboard, from the keel outwards', () => {
    const line = (side: 'port' | 'starboard' | 'centre', offset: number) =>
      draftOf('line', { side, offset: mm(offset) });
    const lines = [line('starboard', 300), line('port', 600), line('centre', 0), line('port', 90)];
    expect(foldedHull(entriesOf(lines)).lines.map(({ name }) => name)).toEqual([
      'P90',
      'P600',
      'C0',
      'S300',
    ]);
  });

  it('sets aside what it cannot read, and passes over the kinds of other rooms', () => {
    const [entry] = entriesOf([plover]);
    const unreadable = { ...entry, _id: idOf(1, 'hull'), body: { name: 7 } };
    const foreign = { ...entry, _id: idOf(2, 'hull'), kind: 'repair', body: null };
    const state = hullOf([entry, unreadable, foreign]);
    expect(state.hull?.name).toBe('Plover (invented)');
    expect(state.setAside).toEqual([
      { id: idOf(1, 'hull'), kind: 'hull', reason: 'name: expected text' },
    ]);
  });

  it('does not depend on the order of arrival', () => {
    const drafts = [
      plover,
      draftOf('hull', { name: 'Dunlin (invented)' }),
      port,
      port,
      draftOf('line', { side: 'starboard', offset: mm(300) }),
      draftOf('gauge', { name: 'taper', division: mm(0.5) }),
      draftOf('note', { text: 'windy' }),
    ];
    const entries = entriesOf(drafts);
    fc.assert(
      fc.property(fc.shuffledSubarray([...entries], { minLength: entries.length }), (arrived) => {
        expect(hullOf(arrived)).toEqual(hullOf(entries));
      }),
      { seed: 20260504 },
    );
  });
});

describe('correctionOf', () => {
  it('throws on no source, and on one that does not stand', () => {
    expect(() => correctionOf([], [], 'hull', { name: 'A' })).toThrow('sources: got none');
    expect(() => correctionOf([], [idOf(0, 'hull')], 'hull', { name: 'A' })).toThrow(RangeError);
  });
});

describe('surveyKeyOf', () => {
  it('throws on what is no id', () => {
    expect(() => surveyKeyOf('P300')).toThrow(RangeError);
  });
});
