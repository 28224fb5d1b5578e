import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { compile } from 'svelte/compiler';

/** Node's module hook for components: compiled for a page without a browser, their styles within. */
export async function load(url, context, nextLoad) {
  if (!url.endsWith('.svelte')) return nextLoad(url, context);
  const filename = fileURLToPath(url);
  const { js } = compile(await readFile(filename, 'utf8'), {
    filename,
    generate: 'server',
    css: 'injected',
    runes: true,
  });
  return { format: 'module', source: js.code, shortCircuit: true };
}
