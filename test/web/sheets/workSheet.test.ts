import { readdirSync, readFileSync } from 'node:fs';
import { render } from 'svelte/server';
import { describe, expect, test } from 'vitest';
import { stillMissing } from '../../../src/survey/stillMissing.ts';
import WorkSheet from '../../../web/sheets/WorkSheet.svelte';
import { gatesOf, NO_STATEMENTS } from '../../../src/fairing/gates.ts';
import { OTHER_CAUSES } from '../../../src/survey/causes/otherCauses.ts';
import type { Found } from '../../../src/survey/kinds/cause.ts';
import { assess } from '../../../src/survey/assess.ts';
import { outcomeWords } from '../../../web/views/causesView.ts';
import type { SheetView } from '../../../web/views/sheetView.ts';
import { planOf, sampleSurvey, sampleView, viewOf, wordsOf } from './samples.ts';

const body = (view: SheetView) => render(WorkSheet, { props: { view, missing: [] } }).body;

/** Cells of each row of the table of each worked line. */
function tables(html: string): string[][][] {
  return html
    .split('<table class="stations')
    .slice(1)
    .map((table) => cellsOf(table.split('</table>')[0] ?? '').slice(2));
}

function cellsOf(table: string): string[][] {
  return [...table.matchAll(/<tr[^]*?<\/tr>/g)].map(([row]) =>
    [...row.matchAll(/<t[hd][^>]*>([^]*?)<\/t[hd]>/g)].map(([, cell = '']) => wordsOf(cell)),
  );
}

/** Page one: everything before the order of work. */
const firstPage = (html: string) => wordsOf(html).split('Order of work')[0] ?? '';

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
  const survey = sampleSurvey(name);

  test('holds every station that was read, with its reading, whether its line is worked or not', () => {
    const cells = [...html.matchAll(/<table[^]*?<\/table>/g)].flatMap(([table]) => cellsOf(table));
    for (const { placements } of survey.lines) {
      for (const { station, gap } of placements.flatMap(({ readings }) => readings)) {
        const said = cells
          .filter(([head]) => head === station.text)
          .flatMap((row) => row.slice(1))
          .flatMap((cell) => cell.split(', '))
          .map((text) => text.replace(/ [a-z].*/, ''));
        expect(said).toContain(gap.text);
      }
    }
  });

  test('has a table for each worked line and for no other', () => {
    const worked = planOf(survey).lines.filter(({ is }) => is === 'planned');
    expect(tables(html)).toHaveLength(worked.length);
    expect(view.lines.map((line) => line.name)).toEqual(worked.map(({ line }) => line.name));
  });

  test('has an unsigned fill or grind, or the reason why not, in every row', () => {
    for (const row of tables(html).flat()) {
      if (row.length === 5) {
        expect(`${row[1]}${row[2]}`).toMatch(/^\d+(\.\d)?$|^(\d+ )?\d+\/\d+$|^[1-9]$/);
        expect(row[2]).toBe('');
        expect(row[4]).toBe('');
      } else expect(row[1]).toMatch(/leave|NOT READ|VOID|PUT OFF/);
    }
  });

  test('has no sign before any figure, and none of what a glass tech has no use for on page one', () => {
    expect(wordsOf(html)).not.toMatch(/(^|\s)[-+−]\d/);
    expect(firstPage(html)).not.toMatch(/%|±|°|\bz\b/);
    expect(firstPage(html)).not.toMatch(view.unit === 'in' ? /\d mm\b(?! \()|\d\.\d/ : /\d in\b/);
  });

  test('names PORT or STARBOARD, TRANSOM and KEEL with every figure, and never left or right as a side', () => {
    const labels = [...html.matchAll(/aria-label="([^"]*)"/g)].map(([, label = '']) => label);
    expect(labels.length).toBeGreaterThanOrEqual(1);
    for (const label of labels) expect(label).toMatch(/(PORT|STARBOARD).*TRANSOM|TRANSOM.*PORT/);
    expect(html).toContain('>KEEL<');
  });

  test('says STOP while gates are not checked, what is asked, and where a person signs', () => {
    expect(view.state).toBe('STOP');
    expect(firstPage(html)).toContain('NOT CHECKED');
    expect(wordsOf(html)).toContain('Owner agrees to the work');
    expect(firstPage(html)).toContain('Paint stripped, edge laid again');
  });
});

test('the work stands in a sentence a side', () => {
  const view = sampleView('stories/one-side');
  const port = view.work.find(({ side }) => side === 'PORT');
  expect(port?.words).toMatch(
    /^Fill P30in, TRANSOM to \d+( 1\/2)? in, deepest \d\/\d+ in at \d+ in\./,
  );
  expect(view.work.find(({ side }) => side === 'STARBOARD')?.words).toMatch(/^Nothing\./);
});

test('the proof of place is a reading of the survey, with the edge as it lay', () => {
  const survey = sampleSurvey('stories/one-side');
  const [proof] = viewOf(survey).proof;
  const line = survey.lines.find(({ name }) => name === 'P30in');
  const readings = line?.placements.flatMap((placement) => placement.readings) ?? [];
  const told = /you should read (.*) in at (.*) in\. If not, stop\.$/.exec(proof ?? '');
  expect(told).not.toBeNull();
  const reading = readings.find(({ station }) => station.text === told?.[2]);
  expect(reading?.gap.text).toBe(told?.[1]);
});

test('an undecided line is never called fair and never ordered to be worked on', () => {
  const view = sampleView('inches-wide');
  expect(view.lines.map(({ name }) => name)).not.toContain('P6in');
  expect(view.work.map(({ words }) => words).join(' ')).toContain(
    'Not decided, measure first, leave alone: P6in',
  );
});

test('without a grind limit nothing is ground, and the sheet says so', () => {
  const html = body(sampleView('stories/rocker-blocks', { plan: { way: 'least work' } }));
  expect(firstPage(html)).toContain('Grind limit: none stated. Grind nothing.');
  expect(
    tables(html)
      .flat()
      .every((row) => row.length < 5 || row[2] === ''),
  ).toBe(true);
});

test('a rocker is dammed at the transom, not feathered', () => {
  const { lines } = sampleView('stories/rocker-blocks');
  const work = lines.flatMap((line) => line.work).join(' ');
  expect(work).toContain('Deep at the TRANSOM: dam it, do not feather it out there');
});

test('with the gates passed and the owner’s signature it says GO', () => {
  const survey = sampleSurvey('stories/one-side');
  const decision = { choice: 'fill', by: 'Owner (invented)', signed: 'on paper' } as const;
  const gates = gatesOf(assess(survey), {
    gates: new Map(
      (
        [
          ['sounded', 'yes'],
          ['flex', 'no'],
          ['moisture', 'no'],
          ['stringers and transom', 'yes'],
        ] as const
      ).map(([gate, answer]) => [gate, { gate, answer }]),
    ),
    causes: new Map(
      OTHER_CAUSES.map(({ cause }) => [cause, { cause, found: 'ruled out' as const }]),
    ),
    decision,
  });
  const view = viewOf(
    survey,
    {},
    { gates, issued: { number: 2, date: '2026-05-21', replaces: 1 } },
  );
  expect(view.state).toBe('GO');
  const words = wordsOf(body(view));
  expect(words).toContain('Sheet 2 of 2026-05-21, replaces sheet 1: tear that one up.');
  expect(words).toContain('Owner (invented) chose: fill, signed on paper.');
});

test('a surveyor’s case stops on paper', () => {
  const survey = sampleSurvey('stories/one-side');
  const gates = gatesOf(assess(survey), {
    ...NO_STATEMENTS,
    decision: { choice: 'refer to a surveyor', by: 'Owner (invented)', signed: 'on paper' },
  });
  const words = wordsOf(body(viewOf(survey, {}, { gates })));
  expect(words).toContain('STOP Referred to a qualified marine surveyor');
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

test('page one says whether it is the bottom at all, as the page of causes has it', () => {
  const survey = sampleSurvey('stories/one-side');
  const found = (weightAft: Found) =>
    outcomeWords(
      assess(survey),
      { does: ['pulls'] },
      new Map(
        OTHER_CAUSES.map(({ cause }) => [
          cause,
          { cause, found: cause === 'weight aft' ? weightAft : 'ruled out' },
        ]),
      ),
    );
  const weight = found('is the cause');
  expect(weight).toMatch(/^The cause was found: weight aft/);
  expect(found('ruled out')).toMatch(/^Every other cause is ruled out, and the bottom agrees/);
  expect(outcomeWords(assess(survey), undefined, new Map())).toMatch(/^Not known yet/);
  const html = body(viewOf(survey, {}, { outcome: weight }));
  expect(firstPage(html)).toContain(`Is it the bottom? ${weight}`);
  expect(firstPage(body(viewOf(survey)))).not.toContain('Is it the bottom?');
});
