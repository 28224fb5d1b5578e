import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { describeApp } from './support.ts';

async function make(page: Page, name: string, builder: string): Promise<void> {
  await page.getByRole('button', { name: 'New hull' }).click();
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel('Builder').fill(builder);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('heading', { name, exact: true }).waitFor();
  await page.getByRole('link', { name: 'Yard' }).first().click();
  await page.getByRole('link', { name: new RegExp(`^${name.slice(0, 6)}`) }).waitFor();
}

const faults = async (page: Page) =>
  (await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id);
const overflows = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth);

describeApp('the yard', (app) => {
  test('is searched, ordered and narrowed in a table, and in cards on a phone', async () => {
    const page = await app.open();
    await make(page, 'Möwe 10 (invented)', 'Invented Builder 1');
    await make(page, 'Möwe 9 (invented)', 'Invented Builder 2');
    await make(page, 'Ebb Tide (invented)', 'Invented Builder 3');
    await make(page, 'Dunlin (invented)', 'Invented Builder 2');
    const names = () => page.locator('tbody th a').allInnerTexts();
    await expect
      .poll(names)
      .toEqual([
        ...['Dunlin (invented)', 'Ebb Tide (invented)'],
        ...['Möwe 9 (invented)', 'Möwe 10 (invented)'],
      ]);
    expect(await faults(page)).toEqual([]);

    const head = page.getByRole('columnheader', { name: 'Hull' });
    await expect.poll(() => head.getAttribute('aria-sort')).toBe('ascending');
    await head.getByRole('button').click();
    await expect.poll(() => head.getAttribute('aria-sort')).toBe('descending');
    await expect.poll(async () => (await names())[0]).toBe('Möwe 10 (invented)');

    await page.getByLabel('Search by name, builder or number').fill('MOWE builder 2');
    await expect.poll(names).toEqual(['Möwe 9 (invented)']);
    await page.getByText('1 of 4 hulls').waitFor();
    await page.getByRole('link', { name: 'Möwe 9 (invented)' }).click();
    await page.getByRole('heading', { name: 'Möwe 9 (invented)' }).waitFor();
    await page.goBack();
    // It is found as it was left.
    await page.getByText('1 of 4 hulls').waitFor();
    await page.getByLabel('Next check', { exact: true }).selectOption('due');
    await page.getByRole('heading', { name: 'Nothing found' }).waitFor();
    expect(await faults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Show all hulls' }).click();

    await page.setViewportSize({ width: 390, height: 844 });
    await page.getByRole('listitem').filter({ hasText: 'Ebb Tide' }).waitFor();
    await expect.poll(() => page.getByRole('table').count()).toBe(0);
    await page.getByText('Narrow down, order').click();
    await page.getByLabel('Next check', { exact: true }).selectOption('not measured');
    await expect.poll(() => page.locator('.hulls li').count()).toBe(4);
    expect(await faults(page)).toEqual([]);
    await expect.poll(() => overflows(page)).toBe(false);
  });
});
