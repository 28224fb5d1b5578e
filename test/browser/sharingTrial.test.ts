import { afterAll, beforeAll, expect, test } from 'vitest';
import { madeYard } from '../server/made.ts';
import { ProtocolServer } from '../server/protocolServer.ts';
import { serveOwnPage, type OwnPage } from './ownPage.ts';
import { BrowserTablet, until } from './sharingTablet.ts';
import { trialInBrowsers } from './sharingTrial.ts';
import { describeApp } from './support.ts';

describeApp('tablets in browsers and a server', (app) => {
  let own: OwnPage | undefined;
  let address = '';
  beforeAll(async () => {
    own = await serveOwnPage('sharingPage');
    address = own.address;
  });
  afterAll(() => own?.close());

  async function tablets(count: number): Promise<readonly BrowserTablet[]> {
    // A browser says on the console whatever a server refuses, and that it has no network.
    app.expectMessage(/Failed to load resource/);
    const made: BrowserTablet[] = [];
    for (let n = 0; n < count; n += 1) {
      made.push(await BrowserTablet.open(await app.context(), address));
    }
    return made;
  }

  test('three of them come to the same fold and lose nothing, while networks come and go, the server is killed, the password is another and rights are withdrawn', async () => {
    const { folds, expected, stated, said } = await trialInBrowsers({
      tablets: await tablets(3),
      operations: 30,
      seed: 20261128,
      pause: 40,
      partitions: 700,
    });
    // Each its operations, less the undos that found nothing to take back; and a hull, a line, a survey, a placement.
    expect(stated).toBeGreaterThan(3 * 25);
    for (const fold of folds) expect(fold).toBe(expected);
    expect([...said]).toEqual(['password', 'rights']);
  }, 600_000);

  test('readings pass photos that are still on their way', async () => {
    const server = new ProtocolServer();
    await server.start();
    await madeYard(server);
    try {
      const [a, b] = await tablets(2);
      const told = async (): Promise<string> =>
        JSON.stringify([await a.status(), await b.status()]);
      // Photos stop half way, as over a network that brings next to nothing, until the readings are there.
      let release: () => void = () => undefined;
      const released = new Promise<void>((resolve) => (release = resolve));
      let held = 0;
      await b.context.route(
        (url) => url.pathname.endsWith('/photo.jpg'),
        async (route) => {
          held += 1;
          await released;
          await route.continue();
        },
      );
      await a.share(server);
      await b.share(server);
      const place = await a.begin('Brent Goose (invented)');
      await until(async () => (await b.hulls()).includes(place.hull), 120_000, told);
      await a.takePhotos(place, 6, 300_000);
      await until(() => Promise.resolve(held > 0), 120_000, told);
      const ids = await a.read(place, 5);
      await until(() => b.has(place, ids[4]), 120_000, told);
      expect(await b.photos(place)).toBe(0);
      release();
      await until(async () => (await b.photos(place)) === 6, 120_000, told);
    } finally {
      await server.end();
    }
  }, 600_000);
});
