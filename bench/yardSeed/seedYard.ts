import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import type { Entry } from '../../src/book/entry.ts';
import { parseId } from '../../src/book/id.ts';
import { madeHull, type YardPlan } from '../../tools/madeYard.ts';
import type {} from './page.ts';

/** The key of a made hull. */
export function hullKey(plan: YardPlan, nth: number): string {
  const id = parseId(madeHull(plan, nth)[0]._id);
  return id.ok ? id.hull : '';
}

/** Writes made hulls where the app served at `address` keeps its own. `as`: changes what is written of each hull. */
export async function seedYard(
  page: Page,
  address: string,
  plans: readonly YardPlan[],
  as: (entries: readonly Entry[]) => readonly Entry[] = (entries) => entries,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'aftrun-seed-'));
  try {
    await build({
      configFile: false,
      root: fileURLToPath(new URL('.', import.meta.url)),
      base: './',
      logLevel: 'warn',
      build: { outDir: folder, emptyOutDir: true, target: 'es2022' },
    });
    await page.route(`${address}seed/**`, (route) => {
      const path = new URL(route.request().url()).pathname.replace(/^\/seed\//, '') || 'index.html';
      return route.fulfill({ path: join(folder, path) });
    });
    await page.goto(`${address}seed/`);
    await page.waitForFunction(() => typeof window.seed === 'function');
    for (const plan of plans) {
      for (let nth = 0; nth < plan.hulls; nth += 1) {
        await page.evaluate(([hull, entries]) => window.seed(hull, entries), [
          hullKey(plan, nth),
          as(madeHull(plan, nth)),
        ] as const);
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
