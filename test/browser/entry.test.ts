import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { describeApp } from './support.ts';
import { begin, cell, deviceOf, newHull, toSetup } from './surveyDriver.ts';

/** Values as a gauge types them, each ended by Enter so many ms after the one before, by the events' own clock. */
async function gaugeSends(page: Page, values: readonly string[], apart: number): Promise<void> {
  for (const value of values) {
    await page.evaluate(
      ([text, gap]) => {
        const at = document.activeElement as HTMLInputElement;
        at.value = String(text);
        at.dispatchEvent(new Event('input', { bubbles: true }));
        const enter = new KeyboardEvent('keydown', {
          key: 'Enter',
          bubbles: true,
          cancelable: true,
        });
        const clock = window as { sentAt?: number };
        clock.sentAt = (clock.sentAt ?? 1000) + Number(gap);
        Object.defineProperty(enter, 'timeStamp', { value: clock.sentAt });
        at.dispatchEvent(enter);
      },
      [value, apart],
    );
  }
}

/** Keeps the hull's database busy, so that whatever is written waits until the page ends. */
async function holdDatabase(page: Page): Promise<void> {
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const open = indexedDB.open(`_pouch_aftrun-hull-${location.hash.split('/')[2]}`);
        open.onsuccess = () => {
          const stores = [...open.result.objectStoreNames];
          const held = open.result.transaction(stores, 'readwrite').objectStore(stores[0]);
          const ask = (): void => {
            held.count().onsuccess = ask;
          };
          held.count().onsuccess = () => {
            ask();
            resolve();
          };
        };
      }),
  );
}

describeApp('a digital gauge that types by itself', (app) => {
  const opened = async (guard: 'on' | 'off' = 'on') => {
    const context = await app.context();
    await deviceOf(context, 'mm', { 'burst guard': guard });
    const page = await app.open(context);
    await toSetup(page);
    await begin(page);
    return page;
  };
  const value = (page: Page, station: string) => cell(page, station).inputValue();
  const values = async (page: Page, from = 0, to?: number) => {
    const cells = page.getByRole('table').getByRole('textbox');
    const all = await cells.evaluateAll((each) =>
      each.map((one) => (one as HTMLInputElement).value),
    );
    return all.slice(from, to);
  };

  test('a value sent twice is kept as two looks and asked about; a doubled Enter skips nothing', async () => {
    const page = await opened();
    await gaugeSends(page, ['2.5mm', '2.6 mm'], 20);
    await page.getByText('2 values came at once').waitFor();
    await expect.poll(() => value(page, '0')).toBe('2.5 · 2.6');
    await page.getByRole('button', { name: /^Only the first: 2.5/ }).click();
    await expect.poll(() => value(page, '0')).toBe('2.5');
    // A second Enter of the same press.
    await gaugeSends(page, ['2.4'], 500);
    await gaugeSends(page, [''], 10);
    await gaugeSends(page, ['2.3'], 500);
    await expect.poll(() => values(page, 0, 4)).toEqual(['2.5', '2.4', '2.3', '']);
    await expect.poll(() => page.getByText('values came at once').count()).toBe(0);
    // The last of two may have been of the next station.
    await gaugeSends(page, ['2.2'], 500);
    await gaugeSends(page, ['2.1'], 10);
    await page.getByRole('button', { name: /^The last is of/ }).click();
    await expect.poll(() => values(page, 3, 6)).toEqual(['2.2', '2.1', '']);
  });

  test('a figure half typed when the phone ends the page comes back, and is no reading until it is entered', async () => {
    const page = await opened();
    await gaugeSends(page, ['2.1'], 5000);
    await page.keyboard.type('1.');
    await page.evaluate(() => {
      Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await page.reload();
    await expect.poll(() => value(page, '75')).toBe('1.');
    await expect.poll(() => page.locator('tr[data-state="read"]').count()).toBe(1);
    await page.reload();
    await expect.poll(() => value(page, '0')).toBe('2.1');
  });

  test('a reading that the database had no time to take when the page ends is there when it comes back, once', async () => {
    const page = await opened();
    await gaugeSends(page, ['2.5'], 5000);
    await expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');
    await holdDatabase(page);
    await gaugeSends(page, ['2.4', '2.3'], 5000);
    await page.reload();
    await expect.poll(() => values(page, 0, 4)).toEqual(['2.5', '2.4', '2.3', '']);
    await expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');
    const kept = () =>
      page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('unsaved')));
    await expect.poll(kept).toEqual([]);
    await page.reload();
    await expect.poll(() => values(page, 0, 4)).toEqual(['2.5', '2.4', '2.3', '']);
    await expect.poll(() => page.getByRole('button', { name: /^Undo 2.3/ }).count()).toBe(1);
  });

  test('a figure in the other unit is pointed out, and one tap takes it so; undo and redo work after a reload', async () => {
    const page = await opened();
    await gaugeSends(page, ['2.5', '0.1', '2.6', '2.4'], 500);
    await page.getByText('About a 25th of its neighbours: 0.1 in rather than 0.1 mm?').waitFor();
    await page.getByRole('button', { name: 'Take it as 0.1 in' }).click();
    const second = page.getByRole('table').getByRole('textbox').nth(1);
    await expect.poll(() => second.inputValue()).toBe('0.1 in');
    await expect.poll(() => page.getByText('About a 25th').count()).toBe(0);
    await expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');
    await page.reload();
    await page.getByRole('button', { name: /^Undo 0.1 in/ }).click();
    await expect.poll(() => second.inputValue()).toBe('0.1');
    await expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');
    await page.reload();
    await page.getByRole('button', { name: 'Redo' }).click();
    await expect.poll(() => second.inputValue()).toBe('0.1 in');
  });

  test('Tab goes on like Enter; lines walked in turn begin at the end where the one before ended; digits and Enter are enough', async () => {
    // A test types faster than any hand.
    const page = await opened('off');
    const cells = page.getByRole('table').getByRole('textbox');
    const stations = () => page.getByRole('table').getByRole('rowheader').allInnerTexts();
    await page.getByRole('button', { name: 'Walk aft' }).click();
    await page.getByRole('button', { name: 'Walk forward and aft in turn' }).click();
    const forward = await stations();
    await cells.first().focus();
    for (const [value, key] of [
      ['2,5', 'Tab'],
      ['2.4', 'Enter'],
      ['2.3', 'Tab'],
    ]) {
      await page.keyboard.type(value);
      await page.keyboard.press(key);
    }
    await expect.poll(() => values(page, 0, 4)).toEqual(['2.5', '2.4', '2.3', '']);
    await page.getByRole('button', { name: 'End of line' }).click();
    await page.getByRole('button', { name: /^Next line/ }).click();
    await expect.poll(stations).toEqual(forward.toReversed());
    await page.keyboard.type('1.5');
    await page.keyboard.press('Enter');
    await expect.poll(() => values(page, 0, 2)).toEqual(['1.5', '']);
  });
});

describeApp('a form with a length', (app) => {
  test('that cannot be read, or that no boat has, is not sent until it is put right', async () => {
    const context = await app.context();
    await deviceOf(context, 'mm');
    const page = await app.open(context);
    await newHull(page, 'Grey Teal (invented)');
    await page.getByText('Add a line', { exact: true }).click();
    const offset = page.getByLabel(/^Offset from the keel/);
    const add = page.getByRole('button', { name: 'Add', exact: true });
    const entries = page.getByText(/^(\d+) entr(y|ies)\./);
    const before = await entries.innerText();
    // What was typed before must not be kept in the place of what cannot be used.
    await offset.fill('450');
    await offset.blur();
    for (const [wrong, said] of [
      ['20000', /^Found “20000”, expected /],
      ['fife', /^Found “fife”, expected /],
    ] as const) {
      await offset.fill(wrong);
      await offset.press('Enter');
      await page.getByText(said).waitFor();
      await add.click();
      await expect.poll(() => offset.evaluate((at) => at === document.activeElement)).toBe(true);
    }
    await expect.poll(() => entries.innerText()).toBe(before);
    await offset.fill('460');
    await add.click();
    await expect.poll(() => entries.innerText()).not.toBe(before);
    await expect.poll(() => page.getByText('460 mm').count()).toBeGreaterThan(0);
    await expect.poll(() => page.getByText('450 mm').count()).toBe(0);
  });
});
