import { readFileSync } from 'node:fs';

const page = readFileSync(new URL('./dist/index.html', import.meta.url), 'utf8');
const scripts = [...page.matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.js)"/g)].map(
  ([, path]) => `dist/${path}`,
);

/** The scripts that the page itself names: what the first visit loads before anything can be done. */
export default [{ name: 'scripts of the first load', path: scripts, limit: '150 kB', gzip: true }];
