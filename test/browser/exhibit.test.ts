import { execFileSync, spawnSync } from 'node:child_process';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { assess } from '../../src/survey/assess.ts';
import { readCsv } from '../../src/survey/csv/readCsv.ts';
import { lineWords } from '../../src/survey/verdictWords.ts';
import text from '../../web/store/demo.csv?raw';
import { DEMO_HULL, DEMO_SURVEY } from '../../web/store/demoHull.ts';
import { describeApp } from './support.ts';

/** Of poppler-utils: where it is not installed, the text of the PDF is not read back. */
const canReadBack = spawnSync('pdftotext', ['-v']).status === 0;

describeApp('the exhibit', (app) => {
  test('is filled in, signed, amended and printed: every verdict stands on it, and what changed since', async () => {
    const page = await app.open();
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.waitForURL(/#\/hull\//);
    await page.goto(`${app.address}#/hull/${DEMO_HULL}/survey/${DEMO_SURVEY}/exhibit`);
    await page.getByRole('heading', { name: 'Signatures', exact: true }).waitFor();

    await page.getByLabel('Weather while it was measured').fill('dry');
    await page.getByRole('button', { name: 'Keep' }).click();
    await page.getByRole('cell', { name: 'dry', exact: true }).waitFor();
    await page.getByLabel('Name', { exact: true }).fill('Jo (invented)');
    const field = page.getByRole('img', { name: /^Field to sign in/ });
    await field.scrollIntoViewIfNeeded();
    const box = await field.boundingBox();
    if (box === null) throw new Error('a field expected');
    await page.mouse.move(box.x + 30, box.y + 30);
    await page.mouse.down();
    await page.mouse.move(box.x + 200, box.y + 60, { steps: 5 });
    await page.mouse.up();
    await page.getByRole('button', { name: 'Sign', exact: true }).click();
    await page.getByRole('img', { name: 'Signature of Jo (invented)' }).waitFor();
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);

    await page.getByLabel('Weather while it was measured').fill('drizzle');
    await page.getByRole('button', { name: 'Keep' }).click();
    await page.getByRole('heading', { name: 'Amendments' }).waitFor();
    const pdf = await page.pdf({ preferCSSPageSize: true });
    if (!canReadBack) return;
    const printed = execFileSync('pdftotext', ['-layout', '-', '-'], {
      input: new Uint8Array(pdf),
    }).toString();
    const words = printed.replace(/\s+/g, ' ');
    const read = readCsv(text);
    if (!read.ok) throw new Error('the demo cannot be read');
    const assessment = assess(read.survey);
    for (const line of assessment.lines) {
      const { word, proof } = lineWords(line, assessment, 'in');
      expect(words).toMatch(new RegExp(`${line.line.name}, [A-Z]+, [^:]*: ${word}`));
      expect(words).toContain(proof);
    }
    const sheets = printed.split('\f').filter((sheet) => sheet.trim() !== '');
    for (const [i, sheet] of sheets.entries()) {
      expect(sheet).toContain(`Page ${i + 1} of ${sheets.length}`);
      expect(sheet).toContain('Marsh Heron');
    }
    expect(words).toContain('drizzle');
    expect(words).toMatch(/Amendments .*Changed: Weather: drizzle; before: Weather: dry/);
  });
});
