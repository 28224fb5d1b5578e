import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type Browser, type Page } from 'playwright-core';
import { begin, deviceOf, toSetup } from '../test/browser/surveyDriver.ts';
import { QUIET, served } from './served.ts';

/** Kills Chromium with SIGKILL, all its processes at once, at a random moment while readings are typed into the built
 *  app; starts it again on the same profile, and looks whether every reading is there that the screen had called saved.
 *  `npm run trial:kill [-- TIMES [SEED]]`; 100 times and seed 20261128 unless said otherwise. Exit status 1 where one is
 *  missing. The power stays on: what the system has taken and not yet written is not put to the test. */
const [timesAsked = '100', seedAsked = '20261128'] = process.argv.slice(2);
const TIMES = Number(timesAsked);
/** From the first key to the kill, ms. */
const [SOONEST, LATEST] = [30, 1500];

const print = (line: string): void => void process.stdout.write(`${line}\n`);

/** From 0 to 1; a linear congruential generator (constants of Numerical Recipes, from memory). */
function rolls(from: number): () => number {
  let seed = from >>> 0;
  return () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32;
  };
}
/** Streams of their own, so that the moments do not depend on how many keys came before. */
const momentRoll = rolls(Number(seedAsked));
const pauseRoll = rolls(Number(seedAsked) + 1);

/** Readings as the table shows them: `station gap`. */
type Shown = readonly string[];

interface Started {
  readonly process: ChildProcess;
  readonly browser: Browser;
  readonly page: Page;
}

const profile = mkdtempSync(join(tmpdir(), 'aftrun-kill-'));
const { address, executablePath, close } = await served();

let running: ChildProcess | undefined;

async function start(): Promise<Started> {
  const port = join(profile, 'DevToolsActivePort');
  rmSync(port, { force: true });
  const options = [`--user-data-dir=${profile}`, '--remote-debugging-port=0', 'about:blank'];
  // A group of its own, so that one signal reaches every process of it at once.
  const child = spawn(executablePath, ['--headless', ...QUIET, ...options], {
    detached: true,
    stdio: 'ignore',
  });
  running = child;
  let text = '';
  while (!text.includes('\n')) {
    await pause(20);
    text = existsSync(port) ? readFileSync(port, 'utf8') : '';
  }
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${text.split('\n')[0]}`);
  const [context] = browser.contexts();
  await deviceOf(context, 'mm');
  return { process: child, browser, page: await context.newPage() };
}

function kill(child: ChildProcess): Promise<void> {
  if (child.pid === undefined || child.exitCode !== null) return Promise.resolve();
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  process.kill(-child.pid, 'SIGKILL');
  return gone;
}

/** Tells each time the screen says `saved`, and what readings it shows then. */
async function watch(page: Page, heard: (shown: Shown) => void): Promise<void> {
  await page.exposeFunction('saidSaved', heard);
  await page.evaluate(() => {
    const told = window as unknown as { saidSaved: (shown: readonly string[]) => Promise<void> };
    new MutationObserver(() => {
      if (document.querySelector('.saving')?.textContent !== 'saved') return;
      const rows = [...document.querySelectorAll('tr[data-state="read"]')];
      void told.saidSaved(
        rows.map(
          (row) => `${row.querySelector('th')?.textContent} ${row.querySelector('input')?.value}`,
        ),
      );
    }).observe(document.body, {
      subtree: true,
      childList: true,
      characterData: true,
      attributes: true,
    });
  });
}

function shownIn(page: Page): Promise<Shown> {
  return page.evaluate(() =>
    [...document.querySelectorAll('tr[data-state="read"]')].map(
      (row) => `${row.querySelector('th')?.textContent} ${row.querySelector('input')?.value}`,
    ),
  );
}

/** Stays on the first line, one station short of its end, so that the same table shows all of it afterwards. */
async function type(page: Page, nth: number, stations: number): Promise<void> {
  for (let reading = 0; reading < stations - 1; reading += 1) {
    await page.keyboard.type(`${(nth + reading) % 20}`);
    await page.keyboard.press('Enter');
    await pause(80 * pauseRoll());
  }
}

let called = 0;
let missing = 0;
let withNone = 0;
try {
  print(`seed ${seedAsked}`);
  let now = await start();
  for (let nth = 1; nth <= TIMES; nth += 1) {
    const { page } = now;
    await page.goto(address);
    await toSetup(page, `Kill ${nth} (invented)`);
    await begin(page);
    const where = page.url();
    let saved: Shown = [];
    await watch(page, (shown) => {
      if (shown.length > saved.length) saved = shown;
    });
    await page.locator('tr.current input').focus();
    const child = now.process;
    const stations = await page.locator('tr[data-state]').count();
    const moment = SOONEST + (LATEST - SOONEST) * momentRoll();
    const typing = type(page, nth, stations).catch(() => undefined);
    await pause(moment);
    await kill(child);
    await typing;
    await now.browser.close().catch(() => undefined);

    now = await start();
    await now.page.goto(where);
    await now.page.getByRole('table').first().waitFor();
    const here = new Set(await shownIn(now.page));
    const lost = saved.filter((reading) => !here.has(reading));
    called += saved.length;
    missing += lost.length;
    if (saved.length === 0) withNone += 1;
    print(
      `${nth}: killed after ${moment.toFixed(0)} ms; ${saved.length} called saved, ${here.size} here` +
        (lost.length === 0 ? '' : `; MISSING ${lost.join(', ')}`),
    );
  }
  print(
    `killed ${TIMES} times: ${called} readings called saved, ${missing} of them missing; in ${withNone} kills none had been called saved yet`,
  );
  if (missing > 0) process.exitCode = 1;
} finally {
  if (running !== undefined) await kill(running);
  await close();
  await pause(200);
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
}
process.exit();
