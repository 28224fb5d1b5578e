import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import type {} from './storePage/page.ts';
import { serveOwnPage, type OwnPage } from './ownPage.ts';
import { describeApp } from './support.ts';

const SURVEY = 'cdefghjkmnpq';

describeApp('the store in a real browser', (app) => {
  let own: OwnPage | undefined;
  let address = '';

  beforeAll(async () => {
    own = await serveOwnPage('storePage');
    address = own.address;
  });
  afterAll(async () => {
    await own?.close();
  });

  async function open(context: BrowserContext): Promise<Page> {
    const page = await context.newPage();
    await page.goto(address);
    await page.evaluate(() => window.store.yard.ready);
    return page;
  }
  const newHull = (page: Page): Promise<string> =>
    page.evaluate(() => window.store.yard.newHull({ name: 'Ruddy Shelduck (invented)' }));
  const add = (page: Page, hull: string, gaps: readonly number[]): Promise<void> =>
    page.evaluate(
      async ([key, survey, all]) => {
        const { yard, reading } = window.store;
        await Promise.all(all.map((mm) => yard.open(key).add([reading(mm)], { survey })));
      },
      [hull, SURVEY, gaps] as const,
    );
  const gaps = (page: Page, hull: string): Promise<number[]> =>
    page.evaluate(async (key) => {
      await window.store.yard.open(key).ready;
      return window.store.gaps(key);
    }, hull);
  const upTo = (count: number): number[] => Array.from({ length: count }, (_, n) => n);

  test('a reload keeps everything, and undo goes on where it was', async () => {
    const page = await open(await app.context());
    const hull = await newHull(page);
    await add(page, hull, [1]);
    await add(page, hull, [2]);
    await page.reload();
    expect(await gaps(page, hull)).toEqual([1, 2]);
    await page.evaluate((key) => window.store.yard.open(key).undo(), hull);
    expect(await gaps(page, hull)).toEqual([1]);
    await page.reload();
    expect(await gaps(page, hull)).toEqual([1]);
    await page.evaluate((key) => window.store.yard.open(key).redo(), hull);
    expect(await gaps(page, hull)).toEqual([1, 2]);
    await expect
      .poll(() => page.evaluate(() => window.store.yard.hulls.map(({ name }) => name)))
      .toEqual(['Ruddy Shelduck (invented)']);
  });

  test('two tabs typing 500 readings at once keep every one, and both see all', async () => {
    const context = await app.context();
    const [one, other] = [await open(context), await open(context)];
    const hull = await newHull(one);
    await gaps(other, hull);
    const even = upTo(250).map((n) => 2 * n);
    const odd = even.map((n) => n + 1);
    await Promise.all([add(one, hull, even), add(other, hull, odd)]);
    for (const page of [one, other]) {
      await expect.poll(() => gaps(page, hull)).toEqual(upTo(500));
    }
    await one.reload();
    expect(await gaps(one, hull)).toEqual(upTo(500));
  });

  test('the list of hulls is worked out in one tab, and stands in both', async () => {
    const context = await app.context();
    const [one, other] = [await open(context), await open(context)];
    await one.evaluate(() => window.store.yard.openDemo());
    const verdicts = (page: Page): Promise<unknown> =>
      page.evaluate(() =>
        window.store.yard.hulls.map(({ name, dirty, verdict }) => ({ name, dirty, verdict })),
      );
    await expect
      .poll(() => verdicts(one))
      .toMatchObject([{ name: 'Marsh Heron (invented)', dirty: false }]);
    await expect.poll(() => verdicts(other)).toEqual(await verdicts(one));
  });

  test('a hull removed in one tab is gone in the other, with its database', async () => {
    const context = await app.context();
    const [one, other] = [await open(context), await open(context)];
    const hull = await newHull(one);
    await add(one, hull, [1]);
    expect(await gaps(other, hull)).toEqual([1]);
    await one.evaluate((key) => window.store.yard.remove(key), hull);
    await expect.poll(() => other.evaluate(() => window.store.yard.hulls.length)).toBe(0);
    const left = () =>
      other.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name));
    await expect.poll(left).toEqual(['_pouch_aftrun-summaries']);
  });

  /** A page whose browser gives this site so much room and no more, and how to give it more. The room is set before
   *  anything is stored, because a browser remembers for half a minute how much there was. */
  async function cramped(): Promise<{
    page: Page;
    widen: () => Promise<void>;
    tighten: () => Promise<void>;
  }> {
    app.expectMessage(/global failure|QuotaExceeded|Quota/i);
    const context = await app.context();
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    const { origin } = new URL(address);
    await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 12_000_000 });
    await page.goto(address);
    await page.evaluate(() => window.store.yard.ready);
    return {
      page,
      widen: async () => {
        await session.send('Storage.overrideQuotaForOrigin', { origin });
      },
      /** As much room as is used now. */
      tighten: async () => {
        const { usage } = await page.evaluate(() => navigator.storage.estimate());
        await session.send('Storage.overrideQuotaForOrigin', {
          origin,
          ...(usage !== undefined && { quotaSize: usage }),
        });
      },
    };
  }
  const fillUp = (page: Page): Promise<void> => page.evaluate(() => window.store.fillUp());
  const startAdding = (page: Page, hull: string, mm: number): Promise<void> =>
    page.evaluate(
      ([key, survey, gap]) => {
        const added = window.store.yard.open(key).add([window.store.reading(gap)], { survey });
        added.catch(() => undefined);
      },
      [hull, SURVEY, mm] as const,
    );
  const saving = (page: Page, hull: string): Promise<{ pending: number; kind?: string }> =>
    page.evaluate((key) => {
      const { pending, failure } = window.store.yard.open(key).saving;
      return { pending, ...(failure !== undefined && { kind: failure.kind }) };
    }, hull);

  test('a full disk is told, keeps what is typed, and is got over by itself once there is room', async () => {
    const { page, widen } = await cramped();
    const hull = await newHull(page);
    await add(page, hull, [1]);
    await fillUp(page);
    await startAdding(page, hull, 2);
    await expect.poll(() => saving(page, hull)).toEqual({ pending: 1, kind: 'full' });
    await startAdding(page, hull, 3);
    expect(await gaps(page, hull)).toEqual([1, 2, 3]);
    expect(await saving(page, hull)).toEqual({ pending: 2, kind: 'full' });
    const file = await page.evaluate((key) => window.store.yard.records.entryFile(key), hull);
    expect(readEntryFile(file).book.entries.size).toBe(4);
    await widen();
    await expect.poll(() => saving(page, hull), { interval: 200 }).toEqual({ pending: 0 });
    await page.reload();
    expect(await gaps(page, hull)).toEqual([1, 2, 3]);
  });

  test('a full disk is met with the room kept back for it', async () => {
    const { page, tighten } = await cramped();
    expect(await page.evaluate(() => window.store.reserve.fill())).toBe(true);
    expect(await page.evaluate(() => window.store.reserve.fill())).toBe(true);
    const hull = await newHull(page);
    await fillUp(page);
    await tighten();
    await startAdding(page, hull, 2);
    await expect.poll(() => page.evaluate(() => caches.keys())).toEqual([]);
    await expect.poll(() => saving(page, hull)).toEqual({ pending: 0 });
    await page.reload();
    expect(await gaps(page, hull)).toEqual([2]);
  });

  test('started on a full disk, what is stored can be exported, and it opens once there is room', async () => {
    const { page, widen } = await cramped();
    const hull = await newHull(page);
    await add(page, hull, [1, 2, 3]);
    await fillUp(page);
    await page.reload();
    await page.evaluate(() => window.store.yard.ready);
    const state = (): Promise<string> =>
      page.evaluate((key) => window.store.yard.open(key).state, hull);
    await expect.poll(state, { interval: 200 }).toBe('failed');
    expect(await page.evaluate((key) => window.store.rescue(key), hull)).toMatchObject({
      ok: true,
      entries: 4,
      unread: [],
    });
    const file = await page.evaluate((key) => window.store.yard.records.entryFile(key), hull);
    const read = readEntryFile(file);
    expect(read.faults).toEqual([]);
    expect(read.book.entries.size).toBe(4);
    await widen();
    await expect
      .poll(() => page.evaluate((key) => window.store.yard.open(key).retry(), hull), {
        interval: 200,
      })
      .toBe(true);
    expect(await gaps(page, hull)).toEqual([1, 2, 3]);
    await page.evaluate(() => window.store.yard.retry());
    expect(await page.evaluate(() => window.store.yard.state)).toBe('ready');
  });

  test('the rescue reads attachments and conflicts, makes nothing, and says when there is nothing', async () => {
    const page = await open(await app.context());
    const file = await page.evaluate(async () => {
      const hull = await window.store.yard.openDemo();
      return window.store.yard.records.entryFile(hull);
    });
    const { book } = readEntryFile(file);
    const [first] = book.entries.values();
    const photo = { entry: first._id, name: 'photo 1', type: 'image/png', base64: 'AAECAw==' };
    const twin = { ...first, why: 'another content' };
    const part = { hull: 'dem0her0n000', entries: [first, twin], attachments: [photo] };
    await page.evaluate((each) => window.store.yard.takeIn([each]), part);
    const rescued = await page.evaluate(() => window.store.rescue('dem0her0n000'));
    if (!rescued.ok) throw new Error(rescued.reason);
    const found = readEntryFile(rescued.text);
    expect(found.attachments).toEqual([photo]);
    expect(found.book.entries.size).toBe(book.entries.size - 1);
    expect([...found.book.conflicts.keys()]).toEqual([first._id]);
    expect(await page.evaluate(() => window.store.rescue('000000000000'))).toEqual({
      ok: false,
      reason: 'there is no such database on this device',
    });
    const names = await page.evaluate(async () =>
      (await indexedDB.databases()).map(({ name }) => name),
    );
    expect(names).not.toContain('_pouch_aftrun-hull-000000000000');
  });

  test('every write asks for strict durability', async () => {
    const page = await open(await app.context());
    const hull = await newHull(page);
    const asked = await page.evaluate(
      async ([key, survey]) => {
        const seen: (string | undefined)[] = [];
        // eslint-disable-next-line @typescript-eslint/unbound-method -- applied to its object below
        const begin = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (...given) {
          seen.push(this.transaction.durability);
          return begin.apply(this, given);
        };
        await window.store.yard.open(key).add([window.store.reading(1)], { survey });
        IDBObjectStore.prototype.put = begin;
        return seen;
      },
      [hull, SURVEY] as const,
    );
    expect(asked.length).toBeGreaterThan(0);
    expect(new Set(asked)).toEqual(new Set(['strict']));
  });

  test('the browser is asked to keep the records, and its answer is told', async () => {
    const page = await open(await app.context());
    const answer = await page.evaluate(() => window.store.persistence.ask());
    expect(['granted', 'refused']).toContain(answer);
    expect(await page.evaluate(() => window.store.persistence.answer)).toBe(answer);
  });
});
