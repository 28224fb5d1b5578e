// Builds the app into dist, or leaves dist alone where nothing it is made from has changed since.
import { readdirSync, statSync, utimesSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));

const madeFrom = [
  'web',
  'src',
  'vite.config.ts',
  'svelte.config.js',
  'package.json',
  'package-lock.json',
];

/** Whether dist is missing or older than anything it is made from. */
export function isStale() {
  const page = statSync(join(root, 'dist', 'index.html'), { throwIfNoEntry: false });
  return page === undefined || madeFrom.some((path) => newest(join(root, path)) > page.mtimeMs);
}

/** Latest change of a file, or of a folder and all below it; a folder's own time tells of files removed. */
function newest(path) {
  const facts = statSync(path);
  if (!facts.isDirectory()) return facts.mtimeMs;
  const below = readdirSync(path).map((name) => newest(join(path, name)));
  return Math.max(facts.mtimeMs, ...below);
}

export async function buildApp() {
  const begun = new Date();
  await build({
    root: join(root, 'web'),
    configFile: join(root, 'vite.config.ts'),
    logLevel: 'warn',
  });
  // Dated by its beginning, so that a file changed during the build counts as newer.
  utimesSync(join(root, 'dist', 'index.html'), begun, begun);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  if (!process.argv.includes('--if-stale') || isStale()) await buildApp();
}
