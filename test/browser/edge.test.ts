import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { describeApp } from './support.ts';
import { begin, deviceOf } from './surveyDriver.ts';

/** Halves of an inch-sixty bar's bow, in 1/64 in, as a line scribed twice shows it at nine points. */
const APART = ['0', '4', '7', '9', '10', '9', '7', '4', '0'];

async function hullWithEdge(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'New hull' }).click();
  await page.getByLabel('Name', { exact: true }).fill('Grey Teal (invented)');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('Add a straightedge').click();
  const form = page.locator('form').filter({ has: page.getByLabel('Type') });
  await form.getByLabel('Name').fill('long bar');
  await form.getByLabel('Length').fill('60');
  await form.getByRole('button', { name: 'Add' }).click();
  await page.getByText('not checked: a verdict takes it as straight').waitFor();
}

describeApp('a straightedge', (app) => {
  const opened = async () => {
    const context = await app.context();
    await deviceOf(context, 'in');
    const page = await app.open(context);
    await hullWithEdge(page);
    return page;
  };

  test('is checked by a line scribed twice, with digits and Enter, and says what was found', async () => {
    const page = await opened();
    await page.getByRole('button', { name: 'The error of long bar' }).click();
    await page.getByRole('button', { name: 'Scribe a line twice' }).click();
    await page.getByLabel('Lines apart, point 1').focus();
    for (const [i, figure] of APART.entries()) {
      await page.keyboard.type(figure);
      if (i === 3) await page.getByText(/The check has 4 points\. At least 5 points/).waitFor();
      if (i < APART.length - 1) await page.keyboard.press('Enter');
    }
    const found = page.locator('.found');
    await expect
      .poll(() => found.innerText())
      .toMatch(/bows 5\/64 in ± 1\/64 in towards the hull over 60 in/);
    expect((await new AxeBuilder({ page }).include('.panel').analyze()).violations).toEqual([]);
    await page.getByRole('button', { name: 'Keep this check' }).click();
    await page
      .getByText(/checked on \w+ \d+, \d{4}: bows 5\/64 in/)
      .first()
      .waitFor();
    await page.reload();
    await page
      .getByText(/checked on .*: bows 5\/64 in ± 1\/64 in towards the hull/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'The error of long bar' }).click();
    await page.getByRole('button', { name: /^Strike the check of/ }).click();
    await page.getByText('not checked: a verdict takes it as straight').first().waitFor();
  });

  test('is checked with the keypad alone, three edges in pairs', async () => {
    const page = await opened();
    await page.getByRole('button', { name: 'The error of long bar' }).click();
    await page.getByRole('button', { name: 'Compare three edges' }).click();
    await page.getByLabel('This with second, point 1').click();
    const pad = page.getByRole('group', { name: /^Keypad/ });
    for (let point = 0; point < 5; point++) {
      for (const figure of ['2', '0', '1']) {
        await pad.getByRole('button', { name: figure, exact: true }).click();
        await pad.getByRole('button', { name: 'Next figure' }).click();
      }
    }
    await expect.poll(() => page.locator('.found').innerText()).toMatch(/straight over 30 in/);
    await page.getByRole('button', { name: 'Keep this check' }).click();
    await page.getByText(/three edges in pairs: straight over/).waitFor();
  });

  test('turned end for end is refused, and why is said', async () => {
    const page = await opened();
    await page.getByRole('button', { name: 'The error of long bar' }).click();
    await page.getByRole('button', { name: 'Turn it end for end' }).click();
    await page
      .getByText(/end for end is no check: .* a bow stays the same either way round/)
      .waitFor();
  });

  test('has a bound stated, which replaces the one before, and strikes as one thing', async () => {
    const page = await opened();
    await page.getByRole('button', { name: 'The error of long bar' }).click();
    for (const size of ['1/16', '1/32']) {
      await page.getByRole('button', { name: 'State what it may be out by' }).click();
      await page.getByLabel('Out by at most').fill(size);
      await page.getByLabel('Out by at most').blur();
      await page.getByRole('button', { name: 'Keep it' }).click();
      await page.getByText(`not checked; stated within ${size} in over 60 in`).first().waitFor();
    }
    await page.getByRole('button', { name: 'Strike long bar', exact: true }).click();
    await page.getByText('None yet. 3 ft (0.9 m) is the least').waitFor();
    // What was struck by a slip of the thumb comes back in place, and the keyboard is there.
    const back = page.getByRole('button', { name: 'Bring it back' });
    await expect.poll(() => back.evaluate((it) => it === document.activeElement)).toBe(true);
    await back.press('Enter');
    await page.getByText('not checked; stated within 1/32 in over 60 in').first().waitFor();
    await expect.poll(() => back.count()).toBe(0);
  });

  test('asks in the set-up which end is aft and which face is towards the hull', async () => {
    const page = await opened();
    await page.getByRole('button', { name: 'New survey' }).click();
    await page.getByLabel('On its supports, checked and chained').check();
    await page.getByLabel('Which end is aft').selectOption('B');
    await page.getByLabel('Face towards the hull').selectOption('other');
    await begin(page);
    await page
      .getByText(/end B aft, unmarked face to the hull/)
      .first()
      .waitFor();
  });
});
