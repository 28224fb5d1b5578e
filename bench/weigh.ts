import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import { bookOf } from '../src/book/book.ts';
import type { Entry } from '../src/book/entry.ts';
import { parseId } from '../src/book/id.ts';
import { writeEntryFile } from '../src/book/writeEntryFile.ts';
import { madeHull, USUAL_PLAN, type YardPlan } from '../tools/madeYard.ts';
import { QUIET, served } from './served.ts';
import type {} from './yardSeed/page.ts';

/** Weighs the record: entries as JSON, an entry file, and what Chromium's database grows by on the disk. Prints;
 *  asserts nothing. `npm run bench:weigh`; docs/scale.md holds what it printed. */

/** A haul-out: 12 lines of 25 stations. */
const SURVEY: YardPlan = { ...USUAL_PLAN, hulls: 50, surveys: 1, lines: 12, stations: 25, seed: 7 };

const print = (line: string): void => void process.stdout.write(`${line}\n`);
const kilobytes = (bytes: number): string => `${(bytes / 1000).toPrecision(3)} kB`;

for (const as of ['single', 'rows'] as const) {
  const hulls = Array.from({ length: SURVEY.hulls }, (_, nth) => madeHull({ ...SURVEY, as }, nth));
  const [first] = hulls;
  const file = writeEntryFile(bookOf(first));
  const typed = first
    .filter(({ kind }) => kind === 'reading')
    .map((entry) => JSON.stringify(entry).length);
  const entries = hulls.reduce((sum, { length }) => sum + length, 0);
  const json = hulls.flat().reduce((sum, entry) => sum + JSON.stringify(entry).length, 0);
  print(as === 'single' ? 'Readings typed, an entry each' : '\nReadings as rows of imports');
  if (typed.length > 0)
    print(`a reading: ${Math.round(typed.reduce((a, b) => a + b) / typed.length)} bytes of JSON`);
  print(
    `a survey of 300 readings: ${first.length} entries, ${kilobytes(json / hulls.length)} of JSON, ` +
      `entry file ${kilobytes(file.length)}, gzipped ${kilobytes(gzipSync(file).length)}`,
  );
  const grown = await growth(hulls);
  print(
    `in Chromium's database, ${hulls.length} hulls of one survey: ${kilobytes(grown / hulls.length)} a survey, ` +
      `${Math.round(grown / entries)} bytes an entry`,
  );
}
process.exit();

/** What the databases of some hulls take on the disk beyond those of none. */
async function growth(hulls: readonly (readonly Entry[])[]): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'aftrun-seed-'));
  await build({
    configFile: false,
    root: fileURLToPath(new URL('./yardSeed/', import.meta.url)),
    base: './',
    logLevel: 'warn',
    build: { outDir: folder, emptyOutDir: true, target: 'es2022' },
  });
  const { address, executablePath, close } = await served();
  const profile = mkdtempSync(join(tmpdir(), 'aftrun-weigh-'));
  try {
    const before = await written([]);
    return (await written(hulls)) - before;
  } finally {
    await close();
    for (const each of [folder, profile])
      rmSync(each, { recursive: true, force: true, maxRetries: 5 });
  }

  async function written(what: readonly (readonly Entry[])[]): Promise<number> {
    const context = await chromium.launchPersistentContext(profile, {
      executablePath,
      args: [...QUIET],
      serviceWorkers: 'block',
    });
    await context.addInitScript('globalThis.__name = (named) => named');
    const page = await context.newPage();
    await page.route(`${address}seed/**`, (route) => {
      const path = new URL(route.request().url()).pathname.replace(/^\/seed\//, '') || 'index.html';
      return route.fulfill({ path: join(folder, path) });
    });
    await page.goto(`${address}seed/`);
    await page.waitForFunction(() => typeof window.seed === 'function');
    for (const entries of what) {
      const id = parseId(entries[0]._id);
      if (!id.ok) throw new Error('an entry of a hull expected');
      await page.evaluate(([hull, all]) => window.seed(hull, all), [id.hull, entries] as const);
    }
    await context.close();
    return sizeOf(join(profile, 'Default', 'IndexedDB'));
  }
}

function sizeOf(folder: string): number {
  if (!existsSync(folder)) return 0;
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((each) => each.isFile())
    .reduce((sum, each) => sum + statSync(join(each.parentPath, each.name)).size, 0);
}
