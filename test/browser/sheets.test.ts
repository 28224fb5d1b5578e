import { execFileSync, spawnSync } from 'node:child_process';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromiumPath } from '../../tools/chromium.mjs';
import { bookOf } from '../../src/book/book.ts';
import { standing } from '../../src/book/standing.ts';
import { assess } from '../../src/survey/assess.ts';
import { outcomeSheetView } from '../../web/views/outcomeSheetView.ts';
import { outcomeScenario, SCENARIO_SURVEY } from '../web/sheets/outcomeScenario.ts';
import { fieldSheetView } from '../../web/views/fieldSheetView.ts';
import {
  NO_HULL,
  sampleSurvey,
  sampleView,
  stateOf,
  type SampleChoices,
} from '../web/sheets/samples.ts';
import { stripView } from '../../web/views/stripView.ts';
import { pdfLines } from './pdfLines.ts';
import { sheetPages, type SheetPages } from './sheetHtml.ts';

const executablePath = chromiumPath();
/** Of poppler-utils: where it is not installed, the text of the PDF is not read back. */
const canReadBack = spawnSync('pdftotext', ['-v']).status === 0;

const SHEETS: readonly (readonly [string, SampleChoices])[] = [
  ['inches-wide', { paper: 'A4', withMaterial: true }],
  ['metric-long', { paper: 'Letter', plan: { way: 'least work', grindLimit: 0.5 } }],
  ['two-placements', { paper: 'Letter' }],
  ['stories/one-side', { paper: 'Letter' }],
  ['stories/rocker-blocks', { paper: 'A4', plan: { way: 'least work', grindLimit: 0.8 } }],
];
/** Points, from ISO 216 (A4: 210 by 297 mm) and ANSI/ASME Y14.1 (letter: 8.5 by 11 in). */
const SIZES = { A4: [595, 842], Letter: [612, 792] } as const;

describe.skipIf(executablePath === undefined)('sheets on paper', () => {
  let browser: Browser | undefined;
  let page: Page;
  let pages: SheetPages;

  beforeAll(async () => {
    if (executablePath === undefined) throw new Error('no Chromium found');
    browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
    page = await browser.newPage();
    page.setDefaultTimeout(60_000);
    pages = await sheetPages();
  });
  afterAll(async () => {
    await browser?.close();
    await pages.close();
  });

  /** Sizes of the pages of a PDF as it states them, points. */
  function pageSizes(pdf: Buffer): number[][] {
    const boxes = pdf.toString('latin1').matchAll(/\/MediaBox\s*\[([^\]]*)\]/g);
    return [...boxes].map(([, box = '']) => box.trim().split(/\s+/).slice(2).map(Number));
  }

  async function smallestAndWidest(): Promise<{ smallest: number; widest: number }> {
    return page.evaluate(() => {
      const texts = [...document.querySelectorAll('.paper *')].filter((element) =>
        [...element.childNodes].some(
          (node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '',
        ),
      );
      const points = texts.map((element) => {
        const size = parseFloat(getComputedStyle(element).fontSize);
        const svg = element.closest('svg');
        // A px of a drawing is a mm on paper.
        return svg === null ? (size * 72) / 96 : (size * 72) / 25.4;
      });
      const paper = document.querySelector('.paper')?.getBoundingClientRect();
      const over = texts.map(
        (element) => element.getBoundingClientRect().right - (paper?.right ?? NaN),
      );
      return { smallest: Math.min(...points), widest: Math.max(...over) };
    });
  }

  test.each(['A4', 'Letter'] as const)(
    'the outcome sheet fits %s, in type of 10 points or more',
    async (paper) => {
      const view = outcomeSheetView({
        stands: standing(bookOf(outcomeScenario())),
        survey: SCENARIO_SURVEY,
        hull: { id: 'h', name: 'Tern Reach', invented: true },
        date: '2026-06-02',
        assessment: assess(sampleSurvey('stories/not-to-blame')),
        unit: 'in',
        paper,
        printed: '2026-06-03',
      });
      await page.setContent(await pages.page('OutcomeSheet.svelte', { view }));
      await page.emulateMedia({ media: 'print' });
      const { smallest, widest } = await smallestAndWidest();
      expect(smallest).toBeGreaterThanOrEqual(9.99);
      expect(widest).toBeLessThanOrEqual(0.5);
      const sizes = pageSizes(await page.pdf({ preferCSSPageSize: true }));
      expect(sizes.length).toBeLessThanOrEqual(2);
      for (const size of sizes) {
        size.forEach((side, i) => {
          expect(Math.abs(side - SIZES[paper][i])).toBeLessThan(1.5);
        });
      }
    },
  );

  test.each(SHEETS)('%s fits its paper, in type of 10 points or more', async (name, choices) => {
    const view = sampleView(name, choices);
    await page.setContent(await pages.page('WorkSheet.svelte', { view, missing: [] }));
    await page.emulateMedia({ media: 'print' });
    const { smallest, widest } = await smallestAndWidest();
    expect(smallest).toBeGreaterThanOrEqual(9.99);
    expect(widest).toBeLessThanOrEqual(0.5);
    const sizes = pageSizes(await page.pdf({ preferCSSPageSize: true }));
    expect(sizes.length).toBeGreaterThanOrEqual(view.lines.length + 4);
    for (const size of sizes) {
      expect(size.map(Math.round)).toEqual([...SIZES[view.paper]]);
    }
  });

  (canReadBack ? test : test.skip).each(SHEETS)(
    'the PDF of %s holds every station with its fill and grind, and page of pages',
    async (name, choices) => {
      const view = sampleView(name, choices);
      await page.setContent(await pages.page('WorkSheet.svelte', { view, missing: [] }));
      const pdf = await page.pdf({ preferCSSPageSize: true });
      const text = execFileSync('pdftotext', ['-layout', '-', '-'], {
        input: new Uint8Array(pdf),
      }).toString();
      const sheets = text.split('\f').filter((sheet) => sheet.trim() !== '');
      for (const [i, sheet] of sheets.entries()) {
        expect(sheet).toContain(`Page ${i + 1} of ${sheets.length}`);
        expect(sheet).toContain(view.hull);
      }
      const rows = text.split('\n').map((row) => row.trim().replace(/\s+/g, ' '));
      for (const { rows: expected } of view.lines) {
        for (const row of expected) {
          if (row.is !== 'work') continue;
          const { station, reading, fill, grind } = row;
          const cells = [station, fill, grind, reading].filter((cell) => cell !== '');
          expect(rows).toContain(cells.join(' '));
        }
      }
      for (const { rows: expected } of view.others) {
        for (const { station, cells } of expected) {
          const start = [station, ...cells].join(' ');
          expect(rows.some((row) => row.startsWith(start) || start.startsWith(row))).toBe(true);
        }
      }
    },
  );

  test('100 mm of a full-size strip is 100 mm on paper, along and across, and two pages hold five bands', async () => {
    const marks = [0, 18, 36].map((inches) => ({
      station: inches * 25.4,
      text: `${inches} in`,
      fill: '3/16 in',
    }));
    const where = 'PORT, 18 in from the KEEL';
    const strip = stripView({
      name: 'P18in',
      where,
      side: 'port',
      to: 36 * 25.4,
      marks,
      unit: 'in',
    });
    for (const paper of ['A4', 'Letter'] as const) {
      const props = { paper, hull: 'Marsh Heron (invented)', date: '2026-03-01', strips: [strip] };
      await page.setContent(await pages.page('StripPages.svelte', props));
      await page.emulateMedia({ media: 'print' });
      const { smallest, widest } = await smallestAndWidest();
      expect(smallest).toBeGreaterThanOrEqual(9.99);
      expect(widest).toBeLessThanOrEqual(0.5);
      const pdf = await page.pdf({ preferCSSPageSize: true });
      expect(pageSizes(pdf).length).toBe(2);
      const lines = pdfLines(pdf);
      for (const lies of ['level', 'upright'] as const) {
        const rulers = lines.filter((l) => l.lies === lies && Math.abs(l.length - 100) < 3);
        expect(rulers.length).toBe(2);
        for (const { length } of rulers) expect(Math.abs(length - 100)).toBeLessThanOrEqual(0.2);
      }
    }
  });

  test('the field sheet fits one page of either paper, and what is laid across one more', async () => {
    for (const paper of ['A4', 'Letter'] as const) {
      const view = fieldSheetView({
        state: stateOf(sampleSurvey('inches-wide')),
        hull: NO_HULL,
        unit: 'in',
        paper,
        limit: 1524,
        first: 'port',
        walk: 'snake',
      });
      await page.setContent(await pages.page('FieldSheet.svelte', { view }));
      await page.emulateMedia({ media: 'print' });
      expect((await smallestAndWidest()).smallest).toBeGreaterThanOrEqual(9.99);
      const sizes = pageSizes(await page.pdf({ preferCSSPageSize: true }));
      expect(sizes.map((size) => size.map(Math.round))).toEqual([
        [...SIZES[paper]],
        [...SIZES[paper]],
      ]);
    }
  });
});
