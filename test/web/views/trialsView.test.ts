import { describe, expect, it } from 'vitest';
import { bookOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { standing } from '../../../src/book/standing.ts';
import { SPEED_UNITS } from '../../../src/running/speedUnits.ts';
import { trialNow, trialsView } from '../../../web/views/trialsView.ts';

const HULL = 'h0h1h2h3h4h5';
const SURVEY = 's6s7s8s9sas1';

function entry(place: number, kind: string, body: object, more: Partial<Entry> = {}): Entry {
  const survey = kind === 'strike' ? '0' : SURVEY;
  return {
    _id: `${HULL}:${survey}:01k9z40${String(place).padStart(3, '0')}0000000000000000`,
    v: 1,
    kind,
    at: '2026-06-02T15:00:00Z',
    by: 'Jo (invented)',
    device: 'tablet 1',
    app: '0.6.0',
    body,
    ...more,
  };
}
const run = (place: number, knots: number, saw: string, more: object) =>
  entry(place, 'sea trial', {
    speed: { mps: knots * SPEED_UNITS.kn, text: `${knots} kn` },
    saw,
    ...more,
  });
const pair = (place: number, before: string, after: string, change: string) =>
  entry(place, 'trial pair', { before, after, change });
const view = (...entries: readonly Entry[]) => trialsView(standing(bookOf(entries)), SURVEY);

describe('sea trials', () => {
  const came = run(1, 28, 'begins', { trial: 'as it came' });
  const bags = run(3, 34, 'begins', { trial: '200 lb forward' });
  const tuck = run(5, 29, 'begins', { trial: 'wedges' });

  it('are as many as there are names, and any two are compared before and after a named change', () => {
    const seen = view(
      came,
      pair(2, 'as it came', '200 lb forward', '200 lb forward'),
      bags,
      tuck,
      pair(6, 'as it came', 'wedges', 'wedges'),
      pair(7, '200 lb forward', 'wedges', 'bags out, wedges in'),
    );
    expect(seen.trials.map(({ name }) => name)).toEqual(['as it came', '200 lb forward', 'wedges']);
    expect(seen.pairs.map(({ words }) => words.at(-1))).toEqual([
      'After “200 lb forward” it begins later, by 6 ± 3 kn: the change helps.',
      'Whether “wedges” moved it cannot be told: 1 ± 3 kn later, which is within what the runs can show. Close in with steps of speed, before and after.',
      'After “bags out, wedges in” it begins sooner, by 5 ± 3 kn: the change makes it worse.',
    ]);
  });

  it('keep a struck run legible, with who struck it, when and why, and do not count it', () => {
    const seen = view(
      came,
      run(2, 82, 'begins', { trial: 'as it came' }),
      entry(
        3,
        'strike',
        { act: 'strike' },
        {
          strikes: [{ entry: run(2, 82, 'begins', {})._id }],
          why: '82 for 28',
        },
      ),
    );
    expect(seen.trials[0].lines.map(({ head, struck }) => [head, struck])).toEqual([
      ['28 kn: it begins here', undefined],
      ['82 kn: it begins here', 'Struck by Jo (invented), 2026-06-02: 82 for 28.'],
    ]);
    expect(seen.standing[0].runs).toHaveLength(1);
  });

  it('of the first version, said only to be before or after, pair by themselves', () => {
    const seen = view(
      run(1, 28, 'begins', { set: 'before' }),
      run(2, 34, 'begins', { set: 'after' }),
    );
    expect(seen.pairs).toHaveLength(1);
    expect(seen.pairs[0]).not.toHaveProperty('id');
    expect(seen.pairs[0].words.at(-1)).toBe(
      'After the change it begins later, by 6 ± 3 kn: the change helps.',
    );
  });

  it('go on with the trial that was begun last, else with the one that the last run belongs to', () => {
    expect(trialNow(view())).toBe('as it came');
    expect(trialNow(view(came))).toBe('as it came');
    expect(trialNow(view(came, pair(2, 'as it came', 'wedges', 'wedges')))).toBe('wedges');
    expect(trialNow(view(came, tuck, pair(6, 'as it came', 'wedges', 'wedges')))).toBe('wedges');
  });

  it('of another survey are not among them', () => {
    const other = { ...came, _id: came._id.replace(SURVEY, 'zzzzzzzzzzzz') };
    expect(view(other).trials).toEqual([]);
  });
});
