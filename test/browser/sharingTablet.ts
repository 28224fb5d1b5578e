import type { BrowserContext, Page } from 'playwright-core';

import type { Entry } from '../../src/book/entry.ts';
import type { SharingStatus } from '../../web/store/sharing/status.ts';
import type { ProtocolServer } from '../server/protocolServer.ts';
import type { Place, Task } from './sharingPage/page.ts';

/** A tablet in a browser context of its own: the app's store and sharing, a network that can be cut. */
export class BrowserTablet {
  /** Whether it has a network. */
  online = true;

  private constructor(
    readonly context: BrowserContext,
    readonly page: Page,
  ) {}

  /** Opens one on the page of tablets. */
  static async open(context: BrowserContext, address: string): Promise<BrowserTablet> {
    const page = await context.newPage();
    await page.goto(address);
    await page.evaluate(() => window.tablet.ready);
    return new BrowserTablet(context, page);
  }

  async share({ address }: ProtocolServer): Promise<void> {
    await this.page.evaluate(
      (server) =>
        window.tablet.share({
          server,
          database: 'yard',
          user: 'hand',
          password: 'a word',
          carry: { what: 'all' },
        }),
      address,
    );
  }

  async plug(online: boolean): Promise<void> {
    this.online = online;
    await this.context.setOffline(!online);
  }

  status(): Promise<SharingStatus | undefined> {
    return this.page.evaluate(() => window.tablet.status());
  }

  /** Whether it says that it has the same as the server. */
  async level(): Promise<boolean> {
    const status = await this.status();
    return status?.at === 'idle' && status.waiting === 0;
  }

  begin(name: string): Promise<Place> {
    return this.page.evaluate((given) => window.tablet.begin(given), name);
  }

  work(task: Task): Promise<void> {
    return this.page.evaluate((given) => window.tablet.work(given), task);
  }

  read(place: Place, count: number): Promise<readonly string[]> {
    return this.page.evaluate(([at, n]) => window.tablet.read(at, n), [place, count] as const);
  }

  takePhotos(place: Place, count: number, bytes: number): Promise<void> {
    return this.page.evaluate(([at, n, size]) => window.tablet.takePhotos(at, n, size), [
      place,
      count,
      bytes,
    ] as const);
  }

  hulls(): Promise<readonly string[]> {
    return this.page.evaluate(() => window.tablet.hulls());
  }

  count({ hull }: Place): Promise<number> {
    return this.page.evaluate((key) => window.tablet.count(key), hull);
  }

  photos({ hull }: Place): Promise<number> {
    return this.page.evaluate((key) => window.tablet.photos(key), hull);
  }

  has({ hull }: Place, id: string): Promise<boolean> {
    return this.page.evaluate(([key, one]) => window.tablet.has(key, one), [hull, id] as const);
  }

  stated(): Promise<readonly Entry[]> {
    return this.page.evaluate(() => window.tablet.stated);
  }

  fold(place: Place): Promise<string> {
    return this.page.evaluate((given) => window.tablet.fold(given), place);
  }
}

/** Asks until it is so; rejects with what is told where it is not within a time. */
export async function until(
  ask: () => Promise<boolean>,
  milliseconds: number,
  told: () => Promise<string>,
): Promise<void> {
  const end = performance.now() + milliseconds;
  while (!(await ask())) {
    if (performance.now() > end) throw new Error(await told());
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
