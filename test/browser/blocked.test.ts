import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { DEMO_HULL } from '../../web/store/demoHull.ts';
import { describeApp } from './support.ts';
import { openDemo } from './screens.ts';

describeApp('a browser that keeps nothing', (app) => {
  test('says so in plain words, and what is typed is never called saved', async () => {
    const context = await app.context({ width: 390, height: 844 });
    await context.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('denied', 'SecurityError');
      };
      Object.defineProperty(window, 'localStorage', {
        get: () => {
          throw new DOMException('denied', 'SecurityError');
        },
      });
    });
    const page = await app.open(context);
    await page
      .getByText(
        'This browser lets the page keep nothing: a private window, or storage switched off.',
      )
      .first()
      .waitFor();
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    await page.getByRole('link', { name: 'This device' }).click();
    await page.getByText('This browser does not keep settings').waitFor();
    expect(await page.getByText('saved', { exact: true }).count()).toBe(0);
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  });

  test('or whose record of one hull does not open says that nothing stored is lost, and opens it once it can', async () => {
    const context = await app.context();
    const page = await app.open(context);
    await openDemo(page);
    await page.getByRole('link', { name: 'Verdict' }).waitFor();
    await context.addInitScript((hull) => {
      const open = IDBFactory.prototype.open;
      const broken = window as { mended?: boolean };
      IDBFactory.prototype.open = function (name: string, version?: number) {
        if (name.includes(hull) && broken.mended !== true) {
          throw new DOMException('the files are gone', 'UnknownError');
        }
        return open.call(this, name, version);
      };
    }, DEMO_HULL);
    await page.reload();
    await page.getByRole('heading', { name: 'The record does not open' }).waitFor();
    await page.getByText('Nothing that is stored is lost by this.').waitFor();
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    await page.evaluate(() => void ((window as { mended?: boolean }).mended = true));
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByRole('link', { name: 'Verdict' }).waitFor();
  });
});
