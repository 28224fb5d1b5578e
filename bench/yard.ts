import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext, type Page } from 'playwright-core';
import { median } from 'simple-statistics';
import { USUAL_PLAN, type YardPlan } from '../tools/madeYard.ts';
import { QUIET, served } from './served.ts';
import { hullKey, seedYard } from './yardSeed/seedYard.ts';

/** Measures the yard's list and a hull's page in Chromium, on the app as it is built in dist, and prints; asserts
 *  nothing. The clock runs from what a person does to the frame after the one in which its answer is painted.
 *  `npm run bench:yard [-- HULLS [FOLDER]]`; 1,000 hulls of 5 surveys unless said otherwise, which takes some minutes.
 *  The browser's profile is kept in FOLDER, where one is named, and made use of when it is named again. */

const [hullsAsked = '1000', kept] = process.argv.slice(2);
/** A record belongs to an address, and so to a port. */
const KEPT_PORT = 4391;
const made = kept !== undefined && existsSync(kept);
const YARD: YardPlan = { ...USUAL_PLAN, hulls: Number(hullsAsked) };
/** 10 surveys of 300 readings. */
const LARGE: YardPlan = {
  ...USUAL_PLAN,
  hulls: 1,
  surveys: 10,
  lines: 12,
  stations: 25,
  seed: 300,
};
const COLD_RUNS = 5;
const AIM = 300;

const print = (line: string): void => void process.stdout.write(`${line}\n`);

function say(what: string, times: readonly number[], aim = AIM): void {
  const [m, least, most] = [median([...times]), Math.min(...times), Math.max(...times)].map((ms) =>
    ms.toFixed(0),
  );
  print(`${what}: median ${m} ms (${least} to ${most}, ${times.length} times; aim: under ${aim})`);
}

const profile = kept ?? mkdtempSync(join(tmpdir(), 'aftrun-yard-'));
const { address, executablePath, close } = await served(kept === undefined ? 0 : KEPT_PORT);

/** The browser started anew on the same profile: nothing is in memory. */
async function started<T>(use: (page: Page, context: BrowserContext) => Promise<T>): Promise<T> {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    args: [...QUIET],
    viewport: { width: 1440, height: 900 },
    serviceWorkers: 'block',
  });
  try {
    // tsx names functions by a helper, which does not travel with them into the page.
    await context.addInitScript('globalThis.__name = (named) => named');
    await context.addInitScript(watch);
    return await use(await context.newPage(), context);
  } finally {
    await context.close();
  }
}

declare global {
  interface Window {
    /** Resolves with the time since `from` (ms since the page began) when something is painted. */
    painted: (selector: string, least: number, from: number) => Promise<number>;
  }
}

/** Put into every page before its own scripts. */
function watch(): void {
  window.painted = (selector, least, from) =>
    new Promise((resolve) => {
      const look = (): void => {
        if (document.querySelectorAll(selector).length < least) {
          requestAnimationFrame(look);
          return;
        }
        // The frame that shows it, and the task after it.
        requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - from), 0));
      };
      look();
    });
}

/** What a person does in the page, and the time until the frame that answers is painted. */
const acted = (
  page: Page,
  act: { readonly on: string; readonly value?: string },
): Promise<number> =>
  page.evaluate(async ({ on, value }) => {
    const found = document.querySelector<HTMLInputElement>(on);
    if (found === null) throw new Error(`nothing is ${on}`);
    const from = performance.now();
    if (value === undefined) found.click();
    else {
      found.value = value;
      found.dispatchEvent(
        new Event(found.type === 'search' ? 'input' : 'change', { bubbles: true }),
      );
    }
    return window.painted('.count', 1, from);
  }, act);

try {
  if (!made) await seed();
  await started(async (page) => {
    const began = performance.now();
    await page.goto(address);
    await page.waitForFunction(
      (count) => {
        const said = document.querySelector('.count')?.textContent ?? '';
        return said.replace(/\D/g, '') === String(count) && !said.includes('worked out');
      },
      YARD.hulls + 1,
      { timeout: 3_600_000, polling: 1000 },
    );
    print(`their summaries worked out in the background in ${seconds(began)} s`);
  });

  const cold: number[] = [];
  const list: number[] = [];
  for (let run = 0; run < COLD_RUNS; run += 1) {
    await started(async (page) => {
      await page.goto(address, { waitUntil: 'commit' });
      const [whole, own] = await page.evaluate(async () => {
        await window.painted('h1', 1, 0);
        const from = performance.now();
        return [await window.painted('tbody tr', 1, 0), performance.now() - from] as const;
      });
      cold.push(whole);
      list.push(own);
    });
  }
  print('\nThe list, browser started anew each time');
  say('from the heading painted to the list painted', list);
  say('from the address to the list painted, scripts and all', cold);

  await started(async (page) => {
    await page.goto(address);
    await page.locator('tbody tr').first().waitFor();
    // The first look at the names of databases and the fill of the reserve are over.
    await page.waitForTimeout(5_000);
    const typed = 'plover 04';
    const keys: number[] = [];
    for (let round = 0; round < 3; round += 1) {
      for (let length = 1; length <= typed.length; length += 1) {
        keys.push(await acted(page, { on: '#search', value: typed.slice(0, length) }));
      }
      keys.push(await acted(page, { on: '#search', value: '' }));
    }
    print('\nThe list, open');
    say('a key in the search', keys);
    const heads: number[] = [];
    for (let head = 1; head <= 5; head += 1) {
      for (let time = 0; time < 2; time += 1) {
        heads.push(await acted(page, { on: `thead th:nth-child(${head}) button` }));
      }
    }
    say('a head pressed to sort', heads);
    const choices: number[] = [];
    for (const [field, value] of [
      ['verdict', 'hook'],
      ['moved', 'moved'],
      ['moved', ''],
      ['verdict', ''],
      ['due', 'due'],
      ['due', ''],
    ]) {
      choices.push(await acted(page, { on: `select[id$="-${field}"]`, value }));
    }
    say('a choice made', choices);
    const more: number[] = [];
    while ((await page.getByRole('button', { name: 'Show more' }).count()) > 0 && more.length < 9) {
      more.push(await acted(page, { on: 'p.actions button' }));
    }
    if (more.length > 0) say('100 hulls more', more);
  });

  const hull = hullKey(LARGE, 0);
  const first: number[] = [];
  const again: number[] = [];
  for (let run = 0; run < COLD_RUNS; run += 1) {
    await started(async (page) => {
      await page.goto(address);
      await page.locator('tbody tr').first().waitFor();
      await page.waitForTimeout(3_000);
      const opened = (): Promise<number> =>
        page.evaluate(async (key) => {
          const from = performance.now();
          location.hash = `#/hull/${key}`;
          return window.painted('ul.list a[href*="/survey/"]', 10, from);
        }, hull);
      first.push(await opened());
      await page.goto(`${address}#/`);
      await page.locator('tbody tr').first().waitFor();
      again.push(await opened());
    });
  }
  print('\nA hull of 10 surveys of 300 readings');
  say('from the list to its page, browser started anew', first);
  say('the same again', again);
} finally {
  await close();
  if (kept === undefined) rmSync(profile, { recursive: true, force: true });
}

/** Writes both yards where the app keeps its own. */
async function seed(): Promise<void> {
  await started(async (page) => {
    const began = performance.now();
    await seedYard(page, address, [YARD, LARGE]);
    print(`${YARD.hulls} hulls of ${YARD.surveys} surveys written in ${seconds(began)} s`);
  });
}

function seconds(since: number): string {
  return ((performance.now() - since) / 1000).toFixed(0);
}
