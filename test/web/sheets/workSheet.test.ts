import { readdirSync, readFileSync } from 'node:fs';
import { render } from 'svelte/server';
import { describe, expect, test } from 'vitest';
import { stillMissing } from '../../../src/survey/stillMissing.ts';
import WorkSheet from '../../../web/sheets/WorkSheet.svelte';
import type { SheetView } from '../../../web/views/sheetView.ts';
import { sampleSurvey, sampleView, wordsOf } from './samples.ts';

const body = (view: SheetView) => render(WorkSheet, { props: { view, missing: [] } }).body;

/** Cells of each row of the table of each line. */
function tables(html: string): string[][][] {
  return html
    .split('<table class="stations')
    .slice(1)
    .map((table) =>
      [...(table.split('</table>')[0] ?? '').matchAll(/<tr[^]*?<\/tr>/g)]
        .map(([row]) =>
          [...row.matchAll(/<t[hd][^>]*>([^]*?)<\/t[hd]>/g)].map(([, cell = '']) => wordsOf(cell)),
        )
        .slice(2),
    );
}

describe.each([
  'inches-wide',
  'metric-long',
  'two-placements',
  'stories/one-side',
  'stories/rocker-blocks',
  'stories/moulded-wedge',
])('the worksheet of %s', (name) => {
  const view = sampleView(name);
  const html = body(view);

  test('holds every station that was read, with its reading', () => {
    const survey = sampleSurvey(name);
    const shown = tables(html);
    expect(shown).toHaveLength(survey.lines.length);
    for (const [i, { placements }] of survey.lines.entries()) {
      for (const { station, gap } of placements.flatMap(({ readings }) => readings)) {
        const row = shown[i]?.find(([head]) => head === station.text);
        expect(row?.[1]?.split(', ').map((text) => text.replace(/ .*/, ''))).toContain(gap.text);
      }
    }
  });

  test('has a fill and a grind, unsigned, or the reason why not, in every row', () => {
    for (const row of tables(html).flat()) {
      if (row.length === 6) {
        expect(row[3]).toMatch(/^\d+(\.\d)?$|^(\d+ )?\d+\/\d+$/);
        expect(row[4]).toBe('0');
        expect(row[2]).toMatch(/^0(\.0)? ± |(hollow|proud) ± /);
        expect(row[5]).toBe('');
      } else expect(row.join(' ')).toMatch(/no figure/);
    }
  });

  test('has no sign before any figure', () => {
    expect(wordsOf(html)).not.toMatch(/(^|\s)[-+−]\d/);
  });

  test('names PORT or STARBOARD, TRANSOM and KEEL with every figure, and never left or right as a side', () => {
    const labels = [...html.matchAll(/aria-label="([^"]*)"/g)].map(([, label = '']) => label);
    expect(labels.length).toBeGreaterThan(1);
    for (const label of labels) expect(label).toMatch(/(PORT|STARBOARD).*TRANSOM|TRANSOM.*PORT/);
    expect(html).toContain('>KEEL<');
  });

  test('says each line’s word, and prints the exaggeration', () => {
    const words = wordsOf(html);
    for (const line of view.lines) expect(words).toContain(`${line.words.word}: ${line.where}`);
    expect(words).toMatch(/heights ×\d+/);
  });
});

test('an undecided line is never called fair and never ordered to be worked on', () => {
  const view = sampleView('inches-wide');
  const line = view.lines.find(({ name }) => name === 'P6in');
  expect(line?.words.word).toBe('Undecided');
  expect(line?.first).toEqual({ fill: 'measure first', grind: 'measure first' });
  expect(wordsOf(body(view))).toContain('UNDECIDED, which is not fair');
});

test('a station that the line lacks is listed as not read', () => {
  const words = wordsOf(body(sampleView('inches-wide')));
  expect(words).toContain('Stations without a figure: 9 in: not read.');
  expect(words).toContain('NOT READ: no figure');
});

test('a void keeps its reason and has no figure', () => {
  expect(wordsOf(body(sampleView('two-placements')))).toContain('VOID: THROUGH-HULL: no figure');
});

test('without a stated limit the best straight line has no grind figure', () => {
  const rows = tables(body(sampleView('metric-long', { reference: 'best straight line' }))).flat();
  expect(new Set(rows.map((row) => row[4]))).toEqual(new Set(['not without a stated limit']));
});

test('a gate that fails stops the sheet in so many words', () => {
  const checks = { sounded: 'yes', flex: 'yes', moisture: 'no' } as const;
  const words = wordsOf(body(sampleView('stories/one-side', { checks })));
  expect(words).toContain('STOP. Soft, wet or flexing is structure');
  expect(words).not.toContain('NOT CHECKED');
});

test('what nobody looked at is NOT CHECKED', () => {
  expect(wordsOf(body(sampleView('stories/one-side'))).match(/NOT CHECKED/g)).toHaveLength(4);
});

test('the cautions stand on it', () => {
  const words = wordsOf(body(sampleView('stories/one-side')));
  for (const said of [
    'toxic: collect',
    'ventilate',
    'respirator, eye protection and skin cover',
    'Peroxide catalyst burns',
    'must not be contaminated',
    'label governs',
    'stop at laminate',
    'Local codes and licensed practice come first',
    'qualified marine surveyor',
  ]) {
    expect(words).toContain(said);
  }
});

test('it is held back, by a notice that lists what is missing, while anything is', () => {
  const survey = sampleSurvey('stories/one-side');
  const missing = stillMissing(survey);
  const html = render(WorkSheet, { props: { view: sampleView('stories/one-side'), missing } }).body;
  expect(wordsOf(html)).toContain('No worksheet yet');
  for (const { ask } of missing) expect(wordsOf(html)).toContain(ask);
  expect(tables(html)).toEqual([]);
});

test('no component writes a style attribute, which the page’s policy forbids', () => {
  const folder = new URL('../../../web/sheets/', import.meta.url);
  for (const name of readdirSync(folder)) {
    expect(readFileSync(new URL(name, folder), 'utf8')).not.toMatch(/\sstyle=/);
  }
  expect(body(sampleView('inches-wide'))).not.toContain('style=');
});
