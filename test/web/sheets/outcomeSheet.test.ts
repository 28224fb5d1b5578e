import { render } from 'svelte/server';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../../../src/book/book.ts';
import { standing } from '../../../src/book/standing.ts';
import OutcomeSheet from '../../../web/sheets/OutcomeSheet.svelte';
import { outcomeSheetView } from '../../../web/views/outcomeSheetView.ts';
import { outcomeScenario, SCENARIO_SURVEY } from './outcomeScenario.ts';
import { wordsOf } from './samples.ts';

function sheet(entries = outcomeScenario()) {
  const view = outcomeSheetView({
    stands: standing(bookOf(entries)),
    survey: SCENARIO_SURVEY,
    hull: { id: 'h', name: 'Tern Reach', invented: true },
    date: '2026-06-02',
    assessment: undefined,
    unit: 'in',
    paper: 'A4',
    printed: '2026-06-03',
  });
  return { view, words: wordsOf(render(OutcomeSheet, { props: { view } }).body) };
}

describe('the outcome sheet', () => {
  it('leads with what to do, says what was ruled out and how, by whom and when, and what remains', () => {
    const { view, words } = sheet();
    expect(view.lead.head).toBe('Do this next');
    expect(words).toContain('Weight aft: Take weight off the stern');
    expect(view.causes.find(({ cause }) => cause === 'Drive trim')).toEqual({
      cause: 'Drive trim',
      found: 'ruled out',
      tried: 'Kim (invented), 2026-06-01',
      next: false,
      how: ['All the way in: the same.', 'Limit pin innermost hole.'],
    });
    expect(words).toContain('it can trap air and hold the stern down');
    expect(words).toMatch(/What remains: .*weight aft.* and the bottom\./);
    expect(words).toContain('From 28 kn. Up to 35 kn. Drive trim half out.');
    expect(words).toContain('The bottom has not been measured yet.');
    expect(words).toContain('Invented hull');
  });

  it('shows trials with struck runs and their pair, and the cautions', () => {
    const { words } = sheet();
    expect(words).toContain('82 kn: it begins here');
    expect(words).toContain('Struck by Jo (invented), 2026-06-02: 82 for 28.');
    expect(words).toContain('it begins later, by 6 ± 3 kn: the change helps.');
    for (const care of [
      'lifejackets on',
      'kill-cord on',
      'two aboard',
      'engines off',
      'Lifting',
      'Local codes',
    ]) {
      expect(words).toContain(care);
    }
  });

  it('begins with the first try before anything was tried, even where nothing is known', () => {
    const { view, words } = sheet([]);
    expect(view.lead.head).toBe('Do this first');
    expect(view.lead.words[0]).toMatch(/^Tabs up, the drive trimmed in/);
    expect(words).toContain('Nobody has said what the boat does.');
  });
});
