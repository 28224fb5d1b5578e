import { loadavg } from 'node:os';

import { chromium, type Browser } from 'playwright-core';
import { serveOwnPage } from '../test/browser/ownPage.ts';
import { BrowserTablet, until } from '../test/browser/sharingTablet.ts';
import { trialInBrowsers } from '../test/browser/sharingTrial.ts';
import { madeYard } from '../test/server/made.ts';
import { ProtocolServer } from '../test/server/protocolServer.ts';
import { chromiumPath } from '../tools/chromium.mjs';
import { QUIET } from './served.ts';

/** Tablets in Chromium, each in a profile of its own, and a server of the protocol: that three of them come to the same
 *  record however network, server and rights go and come, how fast 2,000 entries go from one to another, and readings
 *  while photos are on their way. `npm run trial:tablets [-- OPERATIONS [SEED]]`; 1,000 each and seed 20261128 unless said
 *  otherwise. Exit status 1 where records differ. */
const [operationsAsked = '1000', seedAsked = '20261128'] = process.argv.slice(2);
const PHOTOS = 40;
const PHOTO_BYTES = 1_000_000;

const print = (line: string): void => void process.stdout.write(`${line}\n`);
/** What else the machine does makes most of these figures. */
const load = (): string => `load ${loadavg()[0].toFixed(1)}`;
const seconds = (milliseconds: number): string => `${(milliseconds / 1000).toFixed(1)} s`;

const executablePath = chromiumPath();
if (executablePath === undefined) throw new Error('no Chromium found');
const own = await serveOwnPage('sharingPage');
const browser = await chromium.launch({ executablePath, args: [...QUIET] });
try {
  await converge(browser);
  await pace(browser);
} finally {
  await browser.close();
  await own.close();
}
process.exit();

async function tabletsOf(by: Browser, count: number): Promise<readonly BrowserTablet[]> {
  const tablets: BrowserTablet[] = [];
  for (let n = 0; n < count; n += 1) {
    tablets.push(await BrowserTablet.open(await by.newContext(), own.address));
  }
  return tablets;
}

async function converge(by: Browser): Promise<void> {
  const tablets = await tabletsOf(by, 3);
  const begun = performance.now();
  const { folds, expected, stated, levelAfter } = await trialInBrowsers({
    tablets,
    operations: Number(operationsAsked),
    seed: Number(seedAsked),
    pause: 20,
    partitions: 2_000,
    heard: (line) => print(`  ${seconds(performance.now() - begun)}: ${line}`),
  });
  const same = folds.every((fold) => fold === expected);
  print(
    `three tablets, ${operationsAsked} operations each, seed ${seedAsked}: ${stated} entries stated, ${same ? 'the same record on each and nothing lost' : 'RECORDS DIFFER'}; level ${seconds(levelAfter)} after the last reconnection (${load()})`,
  );
  if (!same) process.exitCode = 1;
  for (const { context } of tablets) await context.close();
}

async function pace(by: Browser): Promise<void> {
  const server = new ProtocolServer();
  await server.start();
  await madeYard(server);
  const tablets = await tabletsOf(by, 2);
  const [a, b] = tablets;
  const told = async (): Promise<string> =>
    JSON.stringify(await Promise.all(tablets.map((tablet) => tablet.status())));
  try {
    for (const tablet of tablets) await tablet.share(server);
    const place = await a.begin('Brent Goose (invented)');
    await until(async () => (await b.hulls()).includes(place.hull), 60_000, told);
    await until(async () => (await a.level()) && (await b.level()), 60_000, told);

    const before = await a.count(place);
    await a.plug(false);
    await a.read(place, 2_000);
    await a.plug(true);
    const from = performance.now();
    await until(async () => (await b.count(place)) === before + 2_000, 120_000, told);
    print(
      `2,000 entries, typed without a network, from tablet to tablet: ${seconds(performance.now() - from)} after it is back (${load()})`,
    );
    await until(async () => (await a.level()) && (await b.level()), 60_000, told);

    const arrivals: number[] = [];
    const photosFrom = performance.now();
    const photos = a.takePhotos(place, PHOTOS, PHOTO_BYTES);
    let meanwhile = 0;
    for (;;) {
      const typed = performance.now();
      const [id] = await a.read(place, 1);
      await until(() => b.has(place, id), 60_000, told);
      arrivals.push(performance.now() - typed);
      const there = await b.photos(place);
      if (there === PHOTOS) break;
      meanwhile += 1;
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
    await photos;
    const sorted = arrivals.slice(0, meanwhile).sort((x, y) => x - y);
    print(
      `${PHOTOS} photos of ${PHOTO_BYTES / 1e6} MB from tablet to tablet: ${seconds(performance.now() - photosFrom)}; ${meanwhile} readings typed meanwhile arrived within ${seconds(sorted[Math.floor(sorted.length / 2)])} (median), ${seconds(sorted[sorted.length - 1])} (slowest; ${load()})`,
    );
  } finally {
    await server.end();
  }
}
