import AxeBuilder from '@axe-core/playwright';
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { bookOf } from '../../src/book/book.ts';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { describeApp } from './support.ts';
import { begin, cell, deviceOf, toSetup } from './surveyDriver.ts';

async function axeFaults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
}

const chooser = (page: Page) => page.getByLabel(/^Entry files of hulls/);
const asFile = (name: string, text: string) => ({
  name,
  mimeType: 'text/plain',
  buffer: Buffer.from(text),
});

describeApp('the field book', (app) => {
  test('keeps a struck figure legible, and goes to another tablet only when it is taken in', async () => {
    const context = await app.context({ width: 390, height: 844 });
    await deviceOf(context, 'in');
    const page = await app.open(context);
    await toSetup(page);
    await begin(page);
    await cell(page, '0').fill('9');
    await cell(page, '0').press('Enter');
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await page.getByRole('link', { name: 'Grey Teal (invented)' }).click();
    await page.getByRole('link', { name: 'Field book' }).click();
    const struck = page.locator('li.struck').filter({ hasText: '9/32 in' });
    await struck.getByText('Taken back by A. Tester').waitFor();
    await expect.poll(() => struck.locator('s').innerText()).toMatch(/, 0 in: 9\/32 in/);
    await expect.poll(() => struck.innerText()).toContain('Struck:');
    expect(await axeFaults(page)).toEqual([]);
    await page.getByLabel('only what was struck').check();
    await page.getByText(/^2 of \d+ entries\.$/).waitFor();
    await page.getByRole('button', { name: 'Put it on paper' }).click();
    await page.getByRole('heading', { name: 'Field book: Grey Teal (invented)' }).waitFor();
    await expect.poll(() => page.locator('.paper s').count()).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Back to the book' }).click();

    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the entry file' }).click();
    const text = readFileSync(await (await saving).path(), 'utf8');
    const lines = text.split('\n');
    lines[3] = lines[3].replace('Tester', 'Tester?');
    const [first] = readEntryFile(text).book.entries.values();
    const other = writeEntryFile(
      bookOf([{ ...first, _id: first._id.replace(/^.{12}/, 'h0h1h2h3h4h5') }]),
    );

    const there = await app.open({ width: 820, height: 1180 });
    const databases = () =>
      there.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name));
    await there.getByText('Take in an entry file').click();
    const before = await databases();
    const both = [asFile('a.txt', lines.join('\n')), asFile('b.txt', other)];
    await chooser(there).setInputFiles(both);
    await there.getByText(/^Line 4: damaged/).waitFor();
    await expect.poll(() => there.getByText('a new hull').count()).toBe(2);
    await there.getByText('Read what is new').first().click();
    await there.locator('li.struck s').first().waitFor();
    expect(await axeFaults(there)).toEqual([]);
    const aside = there.waitForEvent('download');
    await there.getByRole('button', { name: 'Save the lines set aside' }).click();
    expect(readFileSync(await (await aside).path(), 'utf8')).toBe(`${lines[3]}\n`);
    await there.getByRole('button', { name: 'Leave', exact: true }).click();
    await there.getByText('Left. Nothing was changed.').waitFor();
    await expect.poll(() => databases()).toEqual(before);

    await chooser(there).setInputFiles(both);
    await there.getByRole('button', { name: 'Take in', exact: true }).click();
    await there
      .getByText(/\d+ new, 0 already\s+here/)
      .nth(1)
      .waitFor();
  });
});
