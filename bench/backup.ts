import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type CDPSession, type Page } from 'playwright-core';
import type { Entry } from '../src/book/entry.ts';
import { USUAL_PLAN, type YardPlan } from '../tools/madeYard.ts';
import { QUIET, served } from './served.ts';
import { seedYard } from './yardSeed/seedYard.ts';

/** Measures the backup of a whole yard, its cancelling, and the file looked through and set beside the yard again, in
 *  Chromium on the app as it is built in dist; asserts nothing.
 *  `npm run bench:backup [-- HULLS [FOLDER]]`; 1,000 hulls of 5 surveys unless said otherwise. The browser's profile is
 *  kept in FOLDER, where one is named, and made use of when it is named again. */

const [hullsAsked = '1000', kept] = process.argv.slice(2);
const YARD: YardPlan = { ...USUAL_PLAN, hulls: Number(hullsAsked) };
/** A record belongs to an address, and so to a port. */
const KEPT_PORT = 4392;
const made = kept !== undefined && existsSync(kept);
const profile = kept ?? mkdtempSync(join(tmpdir(), 'aftrun-backup-'));
/** Percent of the yard that is written before it is cancelled. */
const BEFORE_CANCEL = 5;
const HOUR = 3_600_000;

/** Hulls that are marked as invented are in no backup. */
const unmarked = (entries: readonly Entry[]): readonly Entry[] =>
  entries.map((entry) =>
    entry.kind === 'hull'
      ? { ...entry, body: { ...(entry.body as object), invented: false } }
      : entry,
  );
const print = (line: string): void => void process.stdout.write(`${line}\n`);

declare global {
  interface Window {
    blocks: { longest: number; over: number };
  }
}

/** Put into the page: how long nothing on it could answer. */
function watchBlocks(): void {
  window.blocks = { longest: 0, over: 0 };
  let last = performance.now();
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => {
    const now = performance.now();
    const gap = now - last;
    if (gap > 50) window.blocks.over += 1;
    window.blocks.longest = Math.max(window.blocks.longest, gap);
    last = now;
    setTimeout(() => port2.postMessage(0), 4);
  };
  port2.postMessage(0);
}

/** The file picker of a browser waits for a hand: a file of the origin's own stands for the one chosen. */
function withPicker(): void {
  Object.assign(window, {
    showSaveFilePicker: async ({ suggestedName }: { suggestedName: string }) => {
      const folder = await navigator.storage.getDirectory();
      return folder.getFileHandle(suggestedName, { create: true });
    },
  });
}

/** Memory of the page's processes that the system has in hand, MB; absent where the system does not tell it so. */
function rendererMb(): number | undefined {
  if (!existsSync('/proc/self/status')) return undefined;
  let most = 0;
  for (const each of readdirSync('/proc')) {
    if (!/^\d+$/.test(each)) continue;
    try {
      const command = readFileSync(`/proc/${each}/cmdline`, 'utf8');
      if (!command.includes('--type=renderer') || !command.includes(profile)) continue;
      const kB = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${each}/status`, 'utf8'))?.[1];
      most = Math.max(most, Number(kB ?? Number.NaN) / 1000);
    } catch {
      // A process that has ended meanwhile.
    }
  }
  return most === 0 ? undefined : most;
}

async function heapMb(session: CDPSession): Promise<number> {
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  return usedSize / 1e6;
}

/** Runs something long and prints what it cost. */
async function measured(
  page: Page,
  session: CDPSession,
  what: string,
  run: () => Promise<void>,
): Promise<void> {
  await session.send('HeapProfiler.collectGarbage');
  const before = { heap: await heapMb(session), renderer: rendererMb() };
  await page.evaluate(() => (window.blocks = { longest: 0, over: 0 }));
  const most = { heap: before.heap, renderer: before.renderer };
  let going = true;
  const sampling = (async () => {
    while (going) {
      most.heap = Math.max(most.heap, await heapMb(session));
      const own = rendererMb();
      if (own !== undefined) most.renderer = Math.max(most.renderer ?? 0, own);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  })();
  const began = performance.now();
  await run();
  const took = performance.now() - began;
  going = false;
  await sampling;
  const { longest, over } = await page.evaluate(() => window.blocks);
  const renderer =
    before.renderer === undefined || most.renderer === undefined
      ? ''
      : `; its process ${before.renderer.toFixed(0)} MB before, at most ${most.renderer.toFixed(0)} MB`;
  print(`${what}: ${(took / 1000).toFixed(1)} s`);
  print(
    `  longest time without an answer from the page: ${longest.toFixed(0)} ms (${over} over 50 ms)`,
  );
  print(
    `  script's memory ${before.heap.toFixed(0)} MB before, at most ${most.heap.toFixed(0)} MB${renderer}`,
  );
}

const { address, executablePath, close } = await served(kept === undefined ? 0 : KEPT_PORT);
const context = await chromium.launchPersistentContext(profile, {
  executablePath,
  args: [...QUIET],
  viewport: { width: 1440, height: 900 },
  serviceWorkers: 'block',
});
try {
  // tsx names functions by a helper, which does not travel with them into the page.
  await context.addInitScript('globalThis.__name = (named) => named');
  await context.addInitScript(watchBlocks);
  await context.addInitScript(withPicker);
  const page = await context.newPage();
  page.setDefaultTimeout(HOUR);
  const began = performance.now();
  const session = await context.newCDPSession(page);
  if (!made) await seedYard(page, address, [YARD], unmarked);
  // A build other than the one before works the summaries out anew, in the background.
  await page.goto(address);
  await page.waitForFunction(
    (count) => {
      const said = document.querySelector('.count')?.textContent ?? '';
      return said.replace(/\D/g, '') === String(count) && !said.includes('worked out');
    },
    YARD.hulls,
    { polling: 1000 },
  );
  await page.goto(`${address}#/settings`);
  const save = page.getByRole('button', { name: 'Save the backup in a file' });
  await save.waitFor();
  print(`ready after ${((performance.now() - began) / 1000).toFixed(0)} s`);
  // The first look at the names of databases and the fill of the reserve are over.
  await page.waitForTimeout(5_000);

  await measured(page, session, 'The whole yard to a file, read back', async () => {
    await save.click();
    await page.getByText('Read back from the file, and found whole.').waitFor();
  });
  print(`  ${await page.locator('[role=status] p', { hasText: 'entries' }).last().innerText()}`);

  await save.click();
  await page.waitForFunction(
    (percent) => Number(document.querySelector('progress')?.value) >= percent,
    BEFORE_CANCEL,
    { polling: 20 },
  );
  await measured(page, session, `Cancelled on the way (at ${BEFORE_CANCEL} %)`, async () => {
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByText('Stopped. No backup was made.').waitFor();
  });

  const saving = page.waitForEvent('download');
  await measured(page, session, 'The whole yard to the downloads', async () => {
    await page.getByRole('button', { name: 'Download the backup' }).click();
    await (await saving).path();
  });
  const file = await (await saving).path();
  await measured(page, session, 'Looked through and set beside the yard again', async () => {
    await page.getByLabel('A backup, of the yard or of a hull').setInputFiles(file);
    await page.getByText('The backup is whole').waitFor();
  });
} finally {
  await context.close();
  await close();
  if (kept === undefined) rmSync(profile, { recursive: true, force: true });
}
