import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { describeApp, type ContextOptions } from './support.ts';

describeApp('how sure a verdict is, and why', (app) => {
  async function unfolded(options: ContextOptions): Promise<Page> {
    const page = await app.open(options);
    await page.getByRole('button', { name: 'Open the demo hull' }).click();
    await page.getByRole('link', { name: 'Verdict' }).click();
    await page.getByRole('heading', { name: 'All lines at one scale' }).waitFor();
    await page.getByText('How sure, and why: P30in').click();
    await page.getByRole('heading', { name: 'Straightness of the readings' }).waitFor();
    return page;
  }

  test('is folded under the line, and opens with where most of the doubt comes from', async () => {
    const page = await unfolded({});
    const fold = page.locator('details', { hasText: 'How sure, and why' });
    await expect
      .poll(() => fold.locator('strong').first().innerText())
      .toMatch(/^(Most|The largest part) of the doubt about the hollow \(\d\d %\) is .+: .+\.$/);
    const shares = await fold.locator('.shares').first().locator('li').allInnerTexts();
    const per = shares.map((share) => Number(/(\d+) %$/.exec(share)?.[1]));
    expect(per.reduce((a, b) => a + b, 0)).toBe(100);
    expect([...per].sort((a, b) => b - a)).toEqual(per);
    const table = page.getByRole('table', { name: /^Uncertainty budget of P30in/ });
    await expect.poll(() => table.getByRole('row').count()).toBe(shares.length + 3);
    await expect.poll(() => fold.locator('dt').first().innerText()).toContain('STRt');
  });

  test('stays open, and speaks of the other line, when another is chosen', async () => {
    const page = await unfolded({});
    await page.getByText('S6in: Fair').click();
    await page.getByText('How sure, and why: S6in').waitFor();
    await page.getByRole('table', { name: /^Uncertainty budget of S6in/ }).waitFor();
  });

  test.each(['light', 'dark'] as const)(
    'has no fault that axe finds and nothing wider than a phone, %s',
    async (scheme) => {
      const page = await unfolded({ width: 390, height: 844, scheme });
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(violations.map(({ id, nodes }) => [id, nodes.map((n) => n.target)])).toEqual([]);
      const over = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      await expect.poll(over).toBeLessThanOrEqual(0);
    },
  );
});
