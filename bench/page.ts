import { loadavg } from 'node:os';
import lighthouse, { type RunnerResult } from 'lighthouse';
import { chromium, type Page } from 'playwright-core';
import { median, quantile } from 'simple-statistics';
import { begin, deviceOf, toSetup } from '../test/browser/surveyDriver.ts';
import { blocked } from './blocked.ts';
import { QUIET, served } from './served.ts';

/** Measures the built app in Chromium as the person under the hull meets it: how long a key takes to be painted, on
 *  this processor and on one four times slower, and what Lighthouse says of its pages with a slow network and a slow
 *  processor simulated. Prints; asserts nothing. `npm run bench:page`, after a build; `-- PAGE` lets Lighthouse look at
 *  one page of the demo hull only, such as `exhibit`, and says what there costs: what was painted last, the longest tasks,
 *  what shifted. */

/** Keys a second of a quick hand. */
const PACE = 8;
const SLOWER = 4;
/** Of the demo hull's survey. */
const PAGES = ['', '/profile', '/causes', '/surface', '/sheet', '/exhibit'];
/** Of the browser's own debugging, through which Lighthouse looks. */
const DEBUGGING = 4396;
/** What tells where a page's score goes, by Lighthouse's names. */
const COSTS = new Set([
  'first-contentful-paint',
  'largest-contentful-paint',
  'largest-contentful-paint-element',
  'speed-index',
  'total-blocking-time',
  'cumulative-layout-shift',
  'layout-shifts',
  'long-tasks',
]);
/** The page to look at; all, and the typing, where none is named. */
const only = process.argv.at(2);
const looks = PAGES.filter((part) => only === undefined || nameOf(part) === only);
if (looks.length === 0)
  throw new Error(`got ${only}, expected one of ${PAGES.map(nameOf).join(', ')}`);

function nameOf(part: string): string {
  return part.slice(1) || 'readings';
}

const print = (line: string): void => void process.stdout.write(`${line}\n`);

declare global {
  interface Window {
    /** From the moment a key went down to the frame that shows what it did, ms. */
    keyTimes: number[];
  }
}

const { address, executablePath, close } = await served();
print(`load of the machine ${loadavg()[0].toFixed(1)}`);
try {
  if (only === undefined) {
    for (const slower of [1, SLOWER]) await typed(slower);
    await alone();
  }
  await looked();
} finally {
  await close();
}
process.exit();

/** Types a whole survey of the usual plan, line after line. */
async function typed(slower: number): Promise<void> {
  const browser = await chromium.launch({ executablePath, args: [...QUIET] });
  try {
    const context = await browser.newContext({ viewport: { width: 820, height: 1180 } });
    await deviceOf(context, 'mm');
    await context.addInitScript(() => {
      window.keyTimes = [];
      addEventListener(
        'keydown',
        ({ timeStamp }) => {
          // The frame that shows it, and the task after it.
          requestAnimationFrame(() =>
            setTimeout(() => window.keyTimes.push(performance.now() - timeStamp), 0),
          );
        },
        { capture: true },
      );
    });
    const page = await context.newPage();
    await page.goto(address);
    await toSetup(page, 'Sandpiper (invented)');
    await begin(page);
    if (slower > 1) {
      const session = await context.newCDPSession(page);
      await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
    }
    await page.evaluate(() => (window.keyTimes = []));
    const [lines, readings] = await survey(page);
    const times = await page.evaluate(() => window.keyTimes);
    const [m, most] = [median(times), quantile(times, 0.95)].map((ms) => ms.toFixed(1));
    print(
      `${slower === 1 ? 'this processor' : `${slower} times slower`}: ${times.length} keys, ${readings} readings on ` +
        `${lines} lines, ${PACE} keys a second: from key to painted frame median ${m} ms, 95 % within ${most} ms ` +
        `(aim: ${slower === 1 ? 33 : 100})`,
    );
  } finally {
    await browser.close();
  }
}

/** Digits and Enter, and at a line's end what leads to the next, as long as there is a line. */
async function survey(page: Page): Promise<readonly [lines: number, readings: number]> {
  let readings = 0;
  for (let line = 1; ; line += 1) {
    const stations = await page.locator('tr[data-state]').count();
    await page.locator('tr.current input').focus();
    for (let at = 0; at < stations; at += 1) {
      for (const key of [...`${(at * 3) % 4}.${(at + line) % 10}`, 'Enter']) {
        await page.keyboard.press(key);
        await page.waitForTimeout(1000 / PACE);
      }
      readings += 1;
    }
    const next = page.getByRole('button', { name: /^Next line/ });
    if ((await next.count()) === 0) return [line, readings];
    await next.click();
  }
}

/** How long the pages of the demo hull's survey block their own thread, whatever else the machine does. */
async function alone(): Promise<void> {
  const browser = await chromium.launch({ executablePath, args: [...QUIET] });
  try {
    const page = await browser.newPage({ viewport: { width: 412, height: 823 } });
    page.setDefaultTimeout(60_000);
    await page.goto(address);
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.locator('a[href*="/survey/"]').first().click();
    await page.getByRole('table').first().waitFor();
    const survey = page.url();
    for (const part of PAGES) {
      const ms = await blocked(browser, page, survey + part, SLOWER);
      print(
        `the demo hull's ${nameOf(part)}: ${ms.toFixed(0)} ms blocked by processor time, ` +
          `${SLOWER} times slower`,
      );
    }
  } finally {
    await browser.close();
  }
}

/** The yard as it is first opened, and the pages of the demo hull's survey. */
async function looked(): Promise<void> {
  const browser = await chromium.launchPersistentContext('', {
    executablePath,
    args: [...QUIET, `--remote-debugging-port=${DEBUGGING}`],
  });
  try {
    const page = await browser.newPage();
    if (only === undefined) await say('the empty yard', address);
    await page.goto(address);
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.locator('a[href*="/survey/"]').first().click();
    await page.getByRole('table').first().waitFor();
    // Whoever has a record was here before: the app is on the device by then.
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    const survey = page.url();
    await page.close();
    for (const part of looks) await say(`the demo hull's ${nameOf(part)}`, survey + part);
  } finally {
    await browser.close();
  }
}

async function say(what: string, url: string): Promise<void> {
  const result = await lighthouse(url, {
    port: DEBUGGING,
    logLevel: 'error',
    onlyCategories: ['performance', 'accessibility', 'best-practices'],
    // The record is what the page is about.
    disableStorageReset: true,
  });
  if (result === undefined) throw new Error('Lighthouse said nothing');
  const { categories, audits, lighthouseVersion } = result.lhr;
  const scores = Object.values(categories).map(
    ({ title, score }) => `${title} ${score === null ? 'none' : Math.round(score * 100)}`,
  );
  const seconds = (id: string): string => `${((audits[id].numericValue ?? 0) / 1000).toFixed(1)} s`;
  print(
    `Lighthouse ${lighthouseVersion}, ${what}: ${scores.join(', ')}; first paint ${seconds('first-contentful-paint')}, ` +
      `interactive ${seconds('interactive')} (aim: under 3), blocked ${seconds('total-blocking-time')}, ` +
      `shifted by ${(audits['cumulative-layout-shift'].numericValue ?? 0).toFixed(2)}`,
  );
  for (const { title, score, scoreDisplayMode } of Object.values(audits)) {
    if (scoreDisplayMode === 'binary' && score === 0) print(`  not so: ${title}`);
  }
  if (only !== undefined) costs(audits);
}

/** What there costs, as Lighthouse words it. */
function costs(audits: RunnerResult['lhr']['audits']): void {
  for (const { id, title, score, displayValue, numericValue, details } of Object.values(audits)) {
    if (!COSTS.has(id)) continue;
    const value = displayValue ?? numericValue?.toFixed(3) ?? '';
    print(`  ${title}: ${value}${score === null ? '' : ` (score ${(100 * score).toFixed(0)})`}`);
    if (details === undefined || !('items' in details)) continue;
    const { items } = details as { readonly items: readonly unknown[] };
    for (const item of items.slice(0, 12)) print(`    ${JSON.stringify(item).slice(0, 400)}`);
  }
}
