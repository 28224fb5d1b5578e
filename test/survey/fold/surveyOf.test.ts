import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { Entry } from '../../../src/book/entry.ts';
import { entryId } from '../../../src/book/id.ts';
import { correctionOf } from '../../../src/survey/fold/correctionOf.ts';
import { surveyOf } from '../../../src/survey/fold/surveyOf.ts';
import { surveysOf } from '../../../src/survey/fold/surveysOf.ts';
import { draftOf, type Draft } from '../../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../../src/survey/kinds/kinds.ts';
import { entriesOf, folded, HULL, idOf, mm } from './samples.ts';

const LINE = 0;
const PLACEMENT = 3;
const base: readonly Draft[] = [
  draftOf('line', { side: 'port', offset: mm(300, '300 mm') }, { ref: 'line' }),
  draftOf('gauge', { name: 'leaves', division: mm(0.1), reads: 'last leaf' }, { ref: 'leaves' }),
  draftOf('survey', { workUnit: 'mm', measured: 'hand', date: '2026-05-04' }),
  draftOf(
    'placement',
    { line: 'line', name: '1', repeat: 1, held: 'resting', division: mm(0.5) },
    { ref: 'placement' },
  ),
];
const reading = (station: number, gap: number, more: Partial<BodyOf<'reading'>> = {}) =>
  draftOf('reading', {
    placement: 'placement',
    station: mm(station),
    gap: mm(gap),
    look: 1,
    ...more,
  });
const unread = (kind: 'void' | 'later', station: number) =>
  draftOf(kind, { placement: 'placement', station: mm(station), reason: 'strake' });
const stated = (...drafts: readonly Draft[]) => entriesOf([...base, ...drafts]);
const N = base.length;
const added = (entries: readonly Entry[], ...drafts: readonly Draft[]) => [
  ...entries,
  ...entriesOf(drafts, { from: entries.length }),
];
const placementOf = (entries: readonly Entry[]) => folded(entries).survey.lines[0].placements[0];
const gaps = (entries: readonly Entry[]) =>
  placementOf(entries).readings.map(({ look, gap }) => [look, gap.mm]);

describe('the three acts', () => {
  it('fix: the new reading stands in place of the old, and the old comes back when that is undone', () => {
    const entries = stated(reading(0, 4));
    const fix = correctionOf(entries, [idOf(N, 'survey')], 'reading', {
      placement: idOf(PLACEMENT, 'survey'),
      station: mm(0),
      gap: mm(9),
      look: 1,
    });
    const fixed = added(entries, fix);
    expect(gaps(fixed)).toEqual([[1, 9]]);
    expect(folded(fixed).disagreements).toEqual([]);
    const undo = draftOf(
      'note',
      { text: 'undo' },
      { scope: 'survey', strikes: [{ entry: idOf(N + 1, 'survey') }] },
    );
    expect(gaps(added(fixed, undo))).toEqual([[1, 4]]);
  });

  it('look again: both looks stand, and nobody disagrees', () => {
    const entries = stated(reading(0, 4), reading(0, 5, { look: 2 }));
    expect(gaps(entries)).toEqual([
      [1, 4],
      [2, 5],
    ]);
    expect(folded(entries).disagreements).toEqual([]);
  });

  it('lay again: readings of another placement are its own', () => {
    const again = draftOf('placement', {
      line: idOf(LINE, 'hull'),
      name: '1',
      repeat: 2,
      held: 'resting',
    });
    const [line] = folded(stated(reading(0, 4), again)).survey.lines;
    expect(line.placements.map(({ repeat, readings }) => [repeat, readings.length])).toEqual([
      [1, 1],
      [2, 0],
    ]);
  });
});

describe('absent, void and 0', () => {
  it('a gap of 0 is a reading; a void and a station put off are none; what was not stated is not there', () => {
    const placement = placementOf(stated(reading(0, 0), unread('void', 75), unread('later', 150)));
    expect(placement.readings.map(({ gap }) => gap.mm)).toEqual([0]);
    expect(placement.voids.map(({ station }) => station.mm)).toEqual([75]);
    expect(placement.later.map(({ station }) => station.mm)).toEqual([150]);
  });

  it('a void and a reading of one station both stand and are a disagreement', () => {
    const state = folded(stated(reading(76.2, 1), unread('void', 76.2000001)));
    expect(state.survey.lines[0].placements[0].readings).toHaveLength(1);
    expect(state.survey.lines[0].placements[0].voids).toHaveLength(1);
    expect(state.disagreements).toEqual([
      {
        about: 'P300mm, placement 1, station 76.2000001: void and read',
        entries: [idOf(N, 'survey'), idOf(N + 1, 'survey')],
      },
    ]);
  });
});

describe('two that speak of the same', () => {
  it('two readings of one look both stand, the later by id as a look more than any stated', () => {
    const state = folded(stated(reading(0, 4), reading(0, 9), reading(0, 5, { look: 2 })));
    const [placement] = state.survey.lines[0].placements;
    expect(placement.readings.map(({ look, gap }) => [look, gap.mm])).toEqual([
      [1, 4],
      [2, 5],
      [3, 9],
    ]);
    expect(state.disagreements).toEqual([
      {
        about: 'P300mm, placement 1, station 0: 2 readings of look 1',
        entries: [idOf(N, 'survey'), idOf(N + 1, 'survey')],
      },
    ]);
  });

  it('in a log they are as they should be', () => {
    const entries = stated(reading(0, 4), reading(0, 9));
    const log = entries.map((entry) =>
      entry.kind === 'survey' ? { ...entry, body: { workUnit: 'mm', measured: 'log' } } : entry,
    );
    expect(gaps(log)).toHaveLength(2);
    expect(folded(log).disagreements).toEqual([]);
  });

  it('two placements of one name and repeat both stand, with their own readings', () => {
    const twin = draftOf('placement', { line: 'line', name: '1', repeat: 1, held: 'resting' });
    const state = folded(stated(twin));
    expect(state.survey.lines[0].placements.map(({ repeat }) => repeat)).toEqual([1, 2]);
    expect(state.disagreements).toHaveLength(1);
  });

  it('two tolerances are a disagreement, the same one twice is not', () => {
    const tolerance = (gap: number) =>
      draftOf('condition', { about: 'tolerance', gap: mm(gap), over: mm(1500) });
    const state = folded(stated(tolerance(3), tolerance(1.5)));
    expect(state.survey.tolerance).toEqual({ gap: 1.5, over: 1500, houseDefault: false });
    expect(state.disagreements.map(({ about }) => about)).toEqual(['tolerance']);
    expect(folded(stated(tolerance(3), tolerance(3))).disagreements).toEqual([]);
  });

  it('readings of a line that two tablets stated alike meet on it', () => {
    const line = draftOf('line', { side: 'port', offset: mm(300, '300 mm') }, { ref: 'twin' });
    const laid = draftOf('placement', { line: 'twin', name: '2', repeat: 1, held: 'resting' });
    const { lines } = folded(stated(line, laid)).survey;
    expect(lines).toHaveLength(1);
    expect(lines[0].placements.map(({ name }) => name)).toEqual(['1', '2']);
  });
});

describe('an import', () => {
  const rows = [
    ['reading', 0, 0, '0', 1.5, '1.5', 1, null],
    ['reading', 0, 75, '75', 2.5, '2.5', 1, 0.1],
    ['void', 0, 150, '150', null, null, null, null],
    ['reading', 0, 225, '225', null, null, 1, null],
    ['reading', 1, 300, '300', 1, '1', 1, null],
    ['guess', 0, 375, '375', 1, '1', 1, null],
  ];
  const columns = 'act,placement,station,station text,gap,gap text,look,division'.split(',');
  const body: BodyOf<'import'> = {
    ...{ mapping: {}, units: { gap: 'mm' }, placements: ['placement'], columns },
    ...{ rows, count: rows.length },
  };

  it('folds to the same readings as if they had been typed, and names each row that it cannot use', () => {
    const state = folded(stated(draftOf('import', body)));
    const id = idOf(N, 'survey');
    const [placement] = state.survey.lines[0].placements;
    expect(placement.readings).toEqual([
      { station: mm(0), gap: mm(1.5), look: 1, source: `${id}#0` },
      { station: mm(75), gap: mm(2.5), look: 1, division: 0.1, source: `${id}#1` },
    ]);
    expect(placement.voids).toEqual([]);
    expect(state.setAside).toEqual([
      { id: `${id}#2`, kind: 'import', reason: 'reason: expected a value, found nothing' },
      {
        id: `${id}#3`,
        kind: 'import',
        reason: 'gap.mm: expected a length: mm as a finite number, and the text as typed',
      },
      {
        id: `${id}#4`,
        kind: 'import',
        reason: 'placement: expected one that the import lists',
      },
      { id: `${id}#5`, kind: 'import', reason: 'act: expected reading, void or later' },
    ]);
  });

  it('loses one row to a strike of that row, gets it back when the strike is undone, and takes a fix of it', () => {
    const entries = stated(draftOf('import', body));
    const id = idOf(N, 'survey');
    const strike = draftOf(
      'note',
      { text: 'slip' },
      { scope: 'survey', strikes: [{ entry: id, row: 0 }] },
    );
    const struck = added(entries, strike);
    expect(gaps(struck)).toEqual([[1, 2.5]]);
    const undo = draftOf(
      'note',
      { text: 'undo' },
      { scope: 'survey', strikes: [{ entry: idOf(N + 1, 'survey') }] },
    );
    expect(gaps(added(struck, undo))).toEqual([
      [1, 1.5],
      [1, 2.5],
    ]);
    const fix = correctionOf(entries, [`${id}#0`], 'reading', {
      ...{ placement: idOf(PLACEMENT, 'survey'), station: mm(0), gap: mm(1.6), look: 1 },
    });
    const fixed = added(entries, fix);
    expect(gaps(fixed)).toEqual([
      [1, 1.6],
      [1, 2.5],
    ]);
    expect(folded(fixed).disagreements).toEqual([]);
  });
});

describe('instruments and support', () => {
  it('a placement says more than its gauge, and a reading more than its placement', () => {
    const laid = (more: object) =>
      draftOf('placement', { line: 'line', name: '2', repeat: 1, held: 'resting', ...more });
    const second = (more: object) => folded(stated(laid(more))).survey.lines[0].placements[1];
    expect(second({ gauge: 'leaves' })).toMatchObject({
      gauge: 'leaves',
      division: 0.1,
      reads: 'last leaf',
    });
    expect(second({ gauge: 'leaves', division: mm(0.2) })).toMatchObject({ division: 0.2 });
    const [other] = placementOf(stated(reading(0, 1, { gauge: 'leaves' }))).readings;
    expect(other).toMatchObject({ division: 0.1, reads: 'last leaf' });
  });

  it('a repeatability holds for the survey only where every gauge in use states the same', () => {
    const steady = draftOf('gauge', { name: 'dial', repeatability: mm(0.05) }, { ref: 'dial' });
    const laid = draftOf('placement', {
      line: 'line',
      name: '2',
      repeat: 1,
      held: 'resting',
      gauge: 'dial',
    });
    expect(folded(stated(steady, laid)).survey.repeatability).toBeUndefined();
    const only = [...base.slice(0, 3), steady, laid];
    expect(folded(entriesOf(only)).survey.repeatability).toBe(0.05);
  });

  it('placements before and after a move of the support bear different periods', () => {
    const support = (nth: number, at: string) =>
      draftOf(
        'support',
        { nth, what: `standing ${String(nth)}`, at },
        { ref: `support ${String(nth)}` },
      );
    const laid = (name: string, more: object) =>
      draftOf('placement', { line: 'line', name, repeat: 1, held: 'resting', ...more });
    const { survey } = folded(
      stated(
        support(2, '2026-05-04T12:00:00Z'),
        support(1, '2026-05-04T08:00:00Z'),
        laid('2', { support: 'support 1' }),
        laid('3', { support: 'support 2' }),
        laid('4', { laid: '2026-05-04T12:30:00Z' }),
      ),
    );
    expect(survey.support.map(({ what }) => what)).toEqual(['standing 1', 'standing 2']);
    expect(survey.lines[0].placements.map(({ supportPeriod }) => supportPeriod)).toEqual([
      undefined,
      0,
      1,
      1,
    ]);
  });
});

describe('what cannot be used', () => {
  it('is set aside with its reason, never dropped: unreadable, or waiting for what has not arrived', () => {
    const entries = stated(reading(0, 4));
    const lost = entries.map((entry) =>
      entry.kind === 'reading' ? { ...entry, body: { station: 'three' } } : entry,
    );
    expect(folded(lost).setAside).toMatchObject([{ kind: 'reading', id: idOf(N, 'survey') }]);

    const without = (kind: string) => folded(entries.filter((entry) => entry.kind !== kind));
    expect(without('placement').setAside).toEqual([
      {
        id: idOf(N, 'survey'),
        kind: 'reading',
        reason: 'its placement does not stand or has not arrived',
      },
    ]);
    expect(
      without('line')
        .setAside.map(({ kind }) => kind)
        .sort(),
    ).toEqual(['placement', 'reading']);
    expect(without('line').survey.lines).toEqual([]);
  });

  it('a placement whose gauge or support is gone counts without it, and says so', () => {
    const laid = draftOf('placement', {
      ...{ line: 'line', name: '2', repeat: 1, held: 'resting' },
      ...{ gauge: 'gone', edge: 'gone', support: 'gone' },
    });
    const state = folded(stated(laid));
    expect(state.survey.lines[0].placements).toHaveLength(2);
    expect(state.setAside.map(({ reason }) => reason.split(' ')[1])).toEqual([
      'straightedge',
      'gauge',
      'support',
    ]);
  });
});

describe('surveyOf', () => {
  const drafts = [
    reading(0, 4),
    reading(0, 9),
    reading(75, 1, { look: 2 }),
    unread('void', 0),
    unread('later', 75),
    draftOf('placement', { line: 'line', name: '1', repeat: 1, held: 'blocks', block: mm(20) }),
    draftOf('condition', { about: 'sun', said: 'none' }),
    draftOf('condition', { about: 'sun', said: 'low' }),
    draftOf('support', { nth: 1, what: 'stands' }),
    draftOf('support', { nth: 1, what: 'trailer' }),
    draftOf('reading', { placement: 'nowhere', station: mm(0), gap: mm(0), look: 1 }),
  ];

  it('does not depend on the order of arrival, disagreements and what is set aside included', () => {
    const entries = stated(...drafts);
    const whole = folded(entries);
    expect(whole.disagreements.length).toBeGreaterThan(3);
    fc.assert(
      fc.property(fc.shuffledSubarray([...entries], { minLength: entries.length }), (arrived) => {
        // Straight from the entries: the book would put them in order.
        expect(surveyOf(arrived, new Map(), whole.key)).toEqual(whole);
      }),
      { seed: 20260504 },
    );
  });

  it('dropping a void is never having had it', () => {
    const entries = stated(reading(0, 4), unread('void', 75));
    const strike = draftOf(
      'note',
      { text: 'x' },
      { scope: 'hull', strikes: [{ entry: idOf(N + 1, 'survey') }] },
    );
    expect(folded(added(entries, strike)).survey).toEqual(folded(stated(reading(0, 4))).survey);
  });

  it('reads one survey and not another of the same hull', () => {
    const other = folded(stated(reading(0, 4)), '000000000000');
    expect(other.survey.lines).toEqual([]);
    expect(other.survey.date).toBeUndefined();
  });
});

describe('surveysOf', () => {
  it('lists surveys by date, those without one last, and those whose own entry has not arrived', () => {
    const [, , survey, placement] = stated();
    const at = (key: string, entry: Entry, body: unknown = entry.body) => ({
      ...entry,
      _id: idOf(1, 'survey', key),
      body,
    });
    const list = surveysOf([
      at('000000000000', placement),
      survey,
      at('111111111111', survey, { workUnit: 'in', measured: 'hand', date: '2025-04-01' }),
    ]);
    expect(list.surveys).toEqual([
      { key: '111111111111', date: '2025-04-01', entries: 1 },
      { key: 'cdefghjkmnpq', date: '2026-05-04', entries: 1 },
      { key: '000000000000', entries: 1 },
    ]);
  });

  it('lists surveys of one day in the order in which they were begun, not by their keys', () => {
    const [, , survey] = stated();
    const begun = (key: string, time: number): Entry => ({
      ...survey,
      _id: entryId({ hull: HULL, survey: key, time, random: new Uint8Array(10) }),
    });
    const keys = (entries: readonly Entry[]) => surveysOf(entries).surveys.map(({ key }) => key);
    const [before, check] = [begun('zzzzzzzzzzzz', 1_000), begun('000000000000', 2_000)];
    expect(keys([check, before])).toEqual(['zzzzzzzzzzzz', '000000000000']);
    const amended = begun('zzzzzzzzzzzz', 3_000);
    expect(keys([amended, check, before])).toEqual(['zzzzzzzzzzzz', '000000000000']);
  });
});
