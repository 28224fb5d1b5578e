import { describe, expect, test } from 'vitest';

import { verdictText, yardRow, yardRows, type YardHull } from '../../../web/views/yardRows.ts';

const asked = { today: '2026-05-04', checkEvery: 12 };

function hull(more: Partial<YardHull> = {}): YardHull {
  return {
    hull: '0123456789ab',
    name: 'Turnstone (invented)',
    invented: true,
    surveys: 2,
    lastSurvey: { date: '2026-03-14' },
    verdict: [
      { word: 'Hook', lines: 1 },
      { word: 'Fair', lines: 3 },
    ],
    moved: { outcome: 'moved', since: '2025-03-10', lines: ['P700'], compared: 4 },
    dirty: false,
    ...more,
  };
}

/** The same hull, of which something is not stated. */
function without(...facts: readonly (keyof YardHull)[]): YardHull {
  const said = Object.entries(hull()).filter(([fact]) => !facts.includes(fact as keyof YardHull));
  return Object.fromEntries(said) as unknown as YardHull;
}

describe('a row of the yard', () => {
  test('says word first when a hull was measured, what was found, whether it moved, when it is due', () => {
    expect(yardRow(hull(), asked)).toMatchObject({
      name: 'Turnstone (invented)',
      sayInvented: false,
      survey: { word: '2026-03-14', more: '51 days ago' },
      verdict: { word: 'Hook', more: 'on 1 of 4 lines; fair on 3' },
      moved: { word: 'Moved', more: 'on 1 of 4 lines (P700) since 2025-03-10' },
      due: { word: 'Not due', more: 'until 2027-03-14' },
      workingOut: false,
    });
  });

  test('takes the hull’s own interval before the yard’s', () => {
    expect(yardRow(hull({ checkEvery: 1 }), asked).due).toEqual({
      word: 'Due',
      more: 'since 2026-04-14',
    });
    expect(yardRow(hull(), { ...asked, checkEvery: 2 }).due).toEqual({
      word: 'Comes up',
      more: 'in 10 days, 2026-05-14',
    });
  });

  test.each([
    ['2026-05-04', 'today'],
    ['2026-05-03', 'yesterday'],
    ['2026-05-05', 'in 1 day: look at its date'],
    ['2024-02-29', '795 days ago'],
    ['last spring', ''],
  ])('tells how long ago %s is: %s', (date, more) => {
    expect(yardRow(hull({ lastSurvey: { date } }), asked).survey).toEqual({ word: date, more });
  });

  test('of a hull that nobody measured claims nothing', () => {
    const row = yardRow({ ...without('lastSurvey', 'moved'), surveys: 0, verdict: [] }, asked);
    expect(row).toMatchObject({
      survey: { word: 'Not measured yet' },
      verdict: { word: '' },
      moved: { word: '' },
      due: { word: '' },
      dueState: 'not measured',
    });
    expect(row.days).toBeUndefined();
    expect(row.movedWord).toBeUndefined();
  });

  test('of a survey without a reading, or that cannot be judged here, says so', () => {
    expect(yardRow(hull({ verdict: [] }), asked).verdict.word).toBe('No reading yet');
    const failed = hull({ verdict: [], verdictFailure: 'its log is judged when it is opened' });
    expect(yardRow(failed, asked).verdict).toEqual({
      word: 'Not judged',
      more: 'its log is judged when it is opened',
    });
  });

  test('says why it cannot be told whether a hull moved, and never that it did not', () => {
    const moved = (how: YardHull['moved']) =>
      yardRow({ ...hull(), ...(how && { moved: how }) }, asked);
    expect(moved({ outcome: 'not compared', why: ['support', 'edge'] }).moved).toEqual({
      word: 'Cannot tell',
      more: 'not alike: support and edge',
    });
    expect(moved({ outcome: 'not compared', why: [] }).moved.more).toContain('no line in common');
    const setUp = {
      outcome: 'cannot tell',
      since: '2025-03-10',
      lines: ['P700'],
      compared: 4,
    } as const;
    expect(moved({ ...setUp, setUpChanged: true }).moved.more).toContain('nobody worked on');
    expect(moved({ outcome: 'one survey only' }).movedWord).toBe('one survey only');
    for (const how of [{ outcome: 'not compared', why: [] } as const, setUp]) {
      expect(moved(how).movedWord).toBe('cannot tell');
    }
  });

  test('whose record is newer than its summary shows no verdict that may be past', () => {
    const row = yardRow(hull({ dirty: true }), asked);
    expect(row).toMatchObject({
      workingOut: true,
      verdict: { word: 'Being worked out…' },
      verdictWords: [],
      moved: { word: '' },
      survey: { word: '2026-03-14' },
    });
    expect(row.movedWord).toBeUndefined();
  });

  test('marks an invented hull whose name does not say so', () => {
    expect(yardRow(hull({ name: 'Turnstone' }), asked).sayInvented).toBe(true);
    expect(yardRow({ ...without('name'), invented: false }, asked)).toMatchObject({
      name: 'Hull without a name',
      sayInvented: false,
    });
  });

  test('is found by name, builder and number', () => {
    const row = yardRow(hull({ builder: 'Invented Builder 3', hin: 'XX-007 A' }), asked);
    expect(row.about).toBe('Invented Builder 3 · XX-007 A');
    expect(row.search.folded).toContain('invented builder 3 xx 007 a');
    expect(row.search.squeezed).toBe('xx007a');
  });

  test('is the same object as long as neither the hull nor the question changes', () => {
    const hulls = [hull(), hull({ hull: 'cdefghjkmnpq' })];
    const [first, second] = yardRows(hulls, asked);
    expect(yardRows(hulls, { ...asked })[0]).toBe(first);
    const changed = yardRows([hulls[0], hull({ dirty: true })], asked);
    expect(changed[0]).toBe(first);
    expect(changed[1]).not.toBe(second);
    expect(yardRows(hulls, { ...asked, today: '2026-05-05' })[0].days).toBe(52);
  });
});

describe('the verdict in the list', () => {
  test('names the gravest first, and how many of how many lines', () => {
    expect(verdictText([])).toBe('');
    expect(verdictText([{ word: 'Fair', lines: 1 }])).toBe('Fair on its one line.');
    expect(verdictText([{ word: 'Fair', lines: 6 }])).toBe('Fair on all 6 lines.');
    expect(
      verdictText([
        { word: 'Hook', lines: 2 },
        { word: 'Fair', lines: 4 },
      ]),
    ).toBe('Hook on 2 of 6 lines; fair on 4.');
  });
});
