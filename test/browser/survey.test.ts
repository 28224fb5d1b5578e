import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { describeApp } from './support.ts';
import { begin, cell, deviceOf, toSetup } from './surveyDriver.ts';

/** Types at the focus: digits and Enter, nothing more. */
async function typeLine(page: Page, figures: readonly string[]): Promise<void> {
  for (const figure of figures) {
    await page.keyboard.type(figure);
    await page.keyboard.press('Enter');
  }
}

const gaps = (page: Page) =>
  page
    .getByRole('table')
    .getByRole('textbox')
    .evaluateAll((cells) => cells.map((each) => (each as HTMLInputElement).value));

const saved = (page: Page) =>
  expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');

const FOURTEEN = ['0', '1', '2', '4', '5', '5', '4', '3', '3', '2', '1', '1', '0', '0'];
const SHOWN = ['0', '1/32', '2/32', '4/32', '5/32', '5/32', '4/32'].concat([
  '3/32',
  '3/32',
  '2/32',
  '1/32',
  '1/32',
  '0',
  '0',
]);

describeApp('recording a survey', (app) => {
  const opened = async (unit: 'mm' | 'in' = 'in', touch = false) => {
    const context = await app.context(
      touch ? { width: 390, height: 844, hasTouch: true, isMobile: true } : {},
    );
    await deviceOf(context, unit);
    const page = await app.open(context);
    await toSetup(page);
    return page;
  };

  test('a line of 14 readings in fractions takes its digits and Enter, and survives a reload', async () => {
    const page = await opened();
    await begin(page);
    await typeLine(page, FOURTEEN);
    await page.getByText('14 stations read').waitFor();
    await expect.poll(() => page.locator('.count').innerText()).toMatch(/5\/32 in at 12 in/);
    await expect.poll(() => gaps(page)).toEqual(SHOWN);
    await saved(page);
    await page.reload();
    await page.getByRole('table').waitFor();
    await expect.poll(() => gaps(page)).toEqual(SHOWN);
  });

  test('keyboard alone from an empty yard to a verdict', async () => {
    const context = await app.context();
    await deviceOf(context, 'in');
    const page = await app.open(context);
    await page.getByRole('button', { name: 'New hull' }).waitFor();
    const tabTo = async (name: RegExp) => {
      for (let i = 0; i < 60; i += 1) {
        const label = await page.evaluate(() => {
          const at = document.activeElement;
          if (at === document.body || at?.id === 'main') return '';
          const labels = at instanceof HTMLInputElement ? [...(at.labels ?? [])] : [];
          return [
            at?.getAttribute('aria-label'),
            ...labels.map((l) => l.innerText),
            at?.textContent,
          ]
            .filter((text) => typeof text === 'string')
            .join(' ');
        });
        if (name.test(label)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error(`no ${String(name)} within 60 Tabs`);
    };
    await tabTo(/New hull/);
    await page.keyboard.press('Enter');
    await tabTo(/^Name/);
    await page.keyboard.type('Grey Teal (invented)');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'New survey' }).waitFor();
    await tabTo(/New survey/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Before anyone goes under' }).waitFor();
    await tabTo(/On its supports/);
    await page.keyboard.press('Space');
    await tabTo(/What stands where/);
    await page.keyboard.type('keel blocks, four stands');
    await page.keyboard.press('Enter');
    await page.getByRole('table').waitFor();
    await typeLine(page, FOURTEEN);
    await tabTo(/Judge by this/);
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('.verdict').innerText()).toMatch(/Hook/);
    await tabTo(/Next line/);
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('.head').innerText()).toMatch(/Port 16 in/);
  });

  test('touch alone: the keypad’s keys are 56 px or more, and no keyboard of the device comes up', async () => {
    const page = await opened('in', true);
    await page.getByLabel('On its supports, checked and chained').tap();
    await page.getByLabel('What stands where').fill('keel blocks');
    await page.getByRole('button', { name: 'Start reading' }).tap();
    const pad = page.getByRole('group', { name: /^Keypad/ });
    await pad.waitFor();
    for (const key of await pad.getByRole('button').all()) {
      const box = await key.boundingBox();
      expect(box?.width).toBeGreaterThanOrEqual(56);
      expect(box?.height).toBeGreaterThanOrEqual(56);
    }
    await expect.poll(() => cell(page, '0').getAttribute('inputmode')).toBe('none');
    const tap = (name: string) => pad.getByRole('button', { name, exact: true }).tap();
    for (const figure of FOURTEEN.slice(0, 12)) {
      for (const digit of figure) await tap(digit);
      await tap('Save and next station');
    }
    await tap('Void');
    await page.getByRole('button', { name: /tab pocket/ }).tap();
    await tap('Come back later');
    await page.getByText('12 stations read').waitFor();
    await expect
      .poll(() => page.locator('.count').innerText())
      .toMatch(/1 void, 1 to come back to/);
    await expect.poll(async () => (await gaps(page)).slice(0, 12)).toEqual(SHOWN.slice(0, 12));
    const wide = () =>
      page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
    await expect.poll(wide).toBe(0);
  });

  test('a hull in slings is refused, and reading cannot begin', async () => {
    const page = await opened();
    await page.getByLabel('In slings').check();
    await page.getByText(/A hull in slings is not measured/).waitFor();
    await expect.poll(() => page.getByRole('button', { name: 'Start reading' }).count()).toBe(0);
    await page.getByLabel('On its supports, checked and chained').check();
    await page.getByLabel('Supports checked by').fill('');
    await page.getByRole('button', { name: 'Start reading' }).click();
    await page.getByText('Say who checked the supports.').waitFor();
  });

  test('what cannot be read is said beside the cell, kept as typed, and moves nobody on', async () => {
    const page = await opened();
    await begin(page);
    await page.keyboard.type('3/0');
    await page.keyboard.press('Enter');
    await page.getByText(/Found “3\/0”, expected a fraction whose lower number is not 0/).waitFor();
    await expect.poll(() => cell(page, '0').inputValue()).toBe('3/0');
    await expect
      .poll(() => cell(page, '0').evaluate((at) => at === document.activeElement))
      .toBe(true);
    await page.keyboard.press('Escape');
    await expect.poll(() => cell(page, '0').inputValue()).toBe('');
    await page.keyboard.type('2 in');
    await page.keyboard.press('Enter');
    await page.getByText(/expected at most 30 mm/).waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Enter');
    await expect
      .poll(() => cell(page, '3').evaluate((at) => at === document.activeElement))
      .toBe(true);
    await expect.poll(() => gaps(page)).toEqual(Array(14).fill(''));
  });

  test('fix, look again and lay again are three acts, and undo takes back one at a time', async () => {
    const page = await opened();
    await begin(page);
    await typeLine(page, ['4', '5']);
    await cell(page, '0').focus();
    await page.keyboard.press('f');
    await expect.poll(() => cell(page, '0').inputValue()).toBe('4/32');
    await page.keyboard.type('9');
    await page.keyboard.press('Enter');
    await expect.poll(() => cell(page, '0').inputValue()).toBe('9/32');

    await cell(page, '3').focus();
    await page.keyboard.press('l');
    await expect.poll(() => cell(page, '3').inputValue()).toBe('');
    await page.keyboard.type('6');
    await page.keyboard.press('Enter');
    await expect.poll(() => cell(page, '3').inputValue()).toBe('5/32 · 6/32');

    await page.getByRole('button', { name: /^Undo 6\/32 in at 3 in/ }).click();
    await expect.poll(() => cell(page, '3').inputValue()).toBe('5/32');
    await page.getByRole('button', { name: /^Undo 9\/32/ }).click();
    await expect.poll(() => cell(page, '0').inputValue()).toBe('4/32');
    await page.getByRole('button', { name: 'Redo' }).click();
    await expect.poll(() => cell(page, '0').inputValue()).toBe('9/32');

    await page.getByRole('button', { name: 'Lay again…' }).click();
    await page.getByRole('button', { name: 'Start this lay' }).click();
    await expect.poll(() => gaps(page)).toEqual(Array(14).fill(''));
    await typeLine(page, ['7']);
    await page.getByRole('navigation', { name: 'Lays on this line' }).waitFor();
    await page.getByRole('button', { name: 'lay 1', exact: true }).click();
    await expect.poll(async () => (await gaps(page)).slice(0, 2)).toEqual(['9/32', '5/32']);
  });

  test('coming back later takes one key; the same key again gives another reason for it', async () => {
    const page = await opened();
    await begin(page);
    await page.keyboard.press('b');
    await page.getByText('Come back later: a stand in the way').waitFor();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('b');
    await page.getByRole('heading', { name: 'Station 0 is read later: why?' }).waitFor();
    await page.keyboard.press('2');
    await page.getByText('Come back later: wet').waitFor();
    await expect.poll(() => page.getByText('a stand in the way').count()).toBe(0);
    await expect
      .poll(() => cell(page, '3').evaluate((at) => at === document.activeElement))
      .toBe(true);
  });

  test('a station past the end of the straightedge is pointed out, and still taken', async () => {
    const page = await opened();
    await page.getByLabel('On its supports, checked and chained').check();
    await page.getByLabel('What stands where').fill('keel blocks');
    await page.getByLabel('Its length').fill('48 in');
    await page.getByRole('button', { name: 'Start reading' }).click();
    await page.getByRole('table').waitFor();
    await expect.poll(() => page.getByText(/Beyond the straightedge/).count()).toBe(2);
    await cell(page, '54').focus();
    await typeLine(page, ['3']);
    await expect.poll(() => cell(page, '54').inputValue()).toBe('3/32');
    await expect.poll(() => page.getByText(/Beyond the straightedge/).count()).toBe(2);
  });

  test('a device that does not know who measures asks once, and what is missing gets the keyboard', async () => {
    const page = await app.open();
    await toSetup(page);
    await page.getByRole('button', { name: 'Start reading' }).click();
    await page.getByText('Say how the hull stands.').waitFor();
    await expect
      .poll(() =>
        page
          .getByLabel('On its supports, checked and chained')
          .evaluate((at) => at === document.activeElement),
      )
      .toBe(true);
    await page.getByLabel('Who measures').fill('B. Tester');
    await expect.poll(() => page.getByLabel('Supports checked by').inputValue()).toBe('B. Tester');
    await begin(page);
    await page.getByRole('button', { name: 'End of line' }).click();
    await expect.poll(() => page.getByLabel('Set by').inputValue()).toBe('B. Tester');
    await page.getByLabel('Set by').fill('');
    await page.getByRole('button', { name: 'Judge by this' }).click();
    await page.getByText('Say who set it.').waitFor();
    await expect
      .poll(() => page.getByLabel('Set by').evaluate((at) => at === document.activeElement))
      .toBe(true);
  });

  test('another gauge is kept with its reading, and the walk turns round in one tap', async () => {
    const page = await opened();
    await begin(page);
    await typeLine(page, ['4']);
    await page.getByRole('button', { name: 'Another gauge…' }).click();
    await page.getByLabel('Division of the gauge').selectOption('0.1 mm');
    await page.getByRole('button', { name: 'Take it up' }).click();
    await typeLine(page, ['2.4']);
    await expect.poll(() => cell(page, '3').inputValue()).toBe('2.4 mm');
    await page.getByText('read to 0.1 mm').waitFor();
    await page.getByRole('button', { name: 'Walk aft' }).click();
    await expect.poll(async () => (await gaps(page)).slice(-2)).toEqual(['2.4 mm', '4/32']);
  });

  test('two tabs typing at once keep every reading', async () => {
    const context = await app.context();
    await deviceOf(context, 'in');
    const first = await app.open(context);
    await toSetup(first);
    await begin(first);
    await saved(first);
    const second = await app.open(context, new URL(first.url()).hash);
    await second.getByRole('table').waitFor();
    await cell(second, '24').focus();
    await cell(first, '0').focus();
    for (let i = 0; i < 7; i += 1) {
      await Promise.all([typeLine(first, [String(i + 1)]), typeLine(second, [String(i + 11)])]);
    }
    const all = [1, 2, 3, 4, 5, 6, 7, 11, 12, 13, 14, 15, 16, 17].map((n) => `${n}/32`);
    // The cell under a cursor stays open for whoever is about to type in it, and says beside it what was read meanwhile.
    await cell(first, '0').focus();
    await cell(second, '24').focus();
    for (const page of [first, second]) await expect.poll(() => gaps(page)).toEqual(all);
    await first.reload();
    await first.getByRole('table').waitFor();
    await expect.poll(() => gaps(first)).toEqual(all);
  });

  test('the list before rolling out shrinks as it is answered, and puts an answer right', async () => {
    const page = await opened();
    await begin(page);
    const link = page.getByRole('link', { name: /Before you roll out/ });
    await expect.poll(() => link.innerText()).toMatch(/\(10\)/);
    await link.click();
    await page.getByLabel('Surface at the stations').selectOption('thin paint');
    await page.getByLabel('Days afloat before').fill('six');
    await page.getByLabel('Temperature').focus();
    await page.getByText('Found “six”, expected days as a number, 0 or more.').waitFor();
    await page.getByLabel('Days afloat before').fill('6');
    await page.getByLabel('Temperature').fill('18 C');
    await page.getByLabel('Hauled when').focus();
    await expect.poll(() => link.innerText()).toMatch(/\(7\)/);
    await page.getByLabel('Days afloat before').fill('7');
    await page.getByLabel('Hauled when').focus();
    await page.getByLabel('Engine').selectOption('held');
    await page.getByRole('button', { name: 'Keep what is written' }).click();
    await expect.poll(() => link.innerText()).toMatch(/\(6\)/);
    await page.reload();
    await expect.poll(() => page.getByLabel('Days afloat before').inputValue()).toBe('7');
  });

  test('supports that were moved part what is read from what was read', async () => {
    const page = await opened();
    await begin(page);
    await typeLine(page, ['4', '5']);
    await page.getByRole('link', { name: /Before you roll out/ }).click();
    await page.getByRole('button', { name: 'The supports were moved…' }).click();
    const form = page.getByRole('heading', { name: 'The new standing' }).locator('..');
    await form.getByLabel('What stands where').fill('in the slings');
    await form.getByRole('button', { name: 'It stands on these now' }).click();
    await page.getByText(/a hull in slings is not measured/).waitFor();
    await form.getByLabel('What stands where').fill('trailer, bunks to the transom');
    await form.getByRole('button', { name: 'It stands on these now' }).click();
    await page.getByRole('heading', { name: 'Standing 2' }).waitFor();
    await page.getByRole('link', { name: 'Readings' }).click();
    await page.getByRole('table').waitFor();
    await expect.poll(() => gaps(page)).toEqual(Array(14).fill(''));
    await typeLine(page, ['7']);
    const lays = page.getByRole('navigation', { name: 'Lays on this line' });
    await lays.getByRole('button', { name: 'lay 1', exact: true }).click();
    await expect.poll(async () => (await gaps(page)).slice(0, 2)).toEqual(['4/32', '5/32']);
  });

  test('no screen of a survey has a fault that axe finds', async () => {
    const page = await opened();
    const faults: string[] = [];
    const look = async (where: string) => {
      const { violations } = await new AxeBuilder({ page }).analyze();
      faults.push(...violations.map(({ id, nodes }) => `${where}: ${id} ${nodes[0]?.html ?? ''}`));
    };
    await look('set-up');
    await begin(page);
    await typeLine(page, [...FOURTEEN.slice(0, 12), '1/0']);
    await look('readings');
    await page.keyboard.press('Escape');
    await page.keyboard.press('v');
    await page.getByRole('heading', { name: /cannot be read/ }).waitFor();
    await look('void');
    await page.keyboard.press('1');
    await page.keyboard.press('b');
    await page.getByText('12 stations read').waitFor();
    await look('end of a line');
    await page.getByRole('button', { name: 'Edge moved…' }).click();
    await look('edge moved');
    await page.getByRole('link', { name: /Before you roll out/ }).click();
    await page.getByText('P8in, station 60 in: put off').waitFor();
    await look('before you roll out');
    expect(faults).toEqual([]);
  });
});
