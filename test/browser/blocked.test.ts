import { expect, test } from 'vitest';
import { DEMO_HULL } from '../../web/store/demoHull.ts';
import { describeApp } from './support.ts';

/** As a browser refuses it (Indexed Database API 3.0, `open()`): every database, or those with this in their name. */
function refuse(part: string): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called below with its own factory
  const { open } = IDBFactory.prototype;
  const page = window as { mended?: boolean };
  IDBFactory.prototype.open = function (name: string, version?: number) {
    if (name.includes(part) && page.mended !== true) {
      throw new DOMException('access is denied in this context', 'SecurityError');
    }
    return open.call(this, name, version);
  };
}

describeApp('a browser that refuses its storage', (app) => {
  test('says so on the yard, plainly', async () => {
    app.expectMessage(/access is denied in this context/);
    const context = await app.context();
    await context.addInitScript(refuse, '');
    const page = await app.open(context);
    const said = page.getByText(/This browser lets the page keep nothing/).first();
    await expect.poll(() => said.isVisible()).toBe(true);
  });

  test('for one hull says that nothing stored is lost, and opens the record once it may', async () => {
    app.expectMessage(/access is denied in this context/);
    const context = await app.context();
    const page = await app.open(context);
    await page.getByRole('button', { name: /demo/i }).first().click();
    const survey = page.locator('a[href*="/survey/"]').first();
    await expect.poll(() => survey.isVisible()).toBe(true);
    await context.addInitScript(refuse, DEMO_HULL);
    await page.goto('about:blank');
    await page.goto(`${app.address}#/hull/${DEMO_HULL}`);
    const refused = page.getByRole('heading', { name: 'The record does not open' });
    await expect.poll(() => refused.isVisible()).toBe(true);
    await expect
      .poll(() => page.getByText(/Nothing that is stored is lost by this\./).count())
      .toBe(1);
    await page.evaluate(() => void ((window as { mended?: boolean }).mended = true));
    await page.getByRole('button', { name: 'Try again', exact: true }).click();
    await expect.poll(() => survey.isVisible()).toBe(true);
  });
});
