import { register } from 'node:module';
import type { Component } from 'svelte';

/** The printed pages that a file can be made of, by name. */
const SHEETS = {
  exhibit: () => import('../../web/sheets/Exhibit.svelte'),
  worksheet: () => import('../../web/sheets/WorkSheet.svelte'),
  strips: () => import('../../web/sheets/StripPages.svelte'),
} as const;

let hooked = false;

/** Printed pages as a file that any browser opens and prints by itself: their styles within, no script, nothing
 *  loaded from elsewhere. One after the other, where there are several. */
export async function renderSheets(
  title: string,
  sheets: readonly {
    readonly sheet: keyof typeof SHEETS;
    readonly props: Readonly<Record<string, unknown>>;
  }[],
): Promise<string> {
  if (!hooked) register('./svelteHooks.mjs', import.meta.url);
  hooked = true;
  const { render } = await import('svelte/server');
  const heads = new Set<string>();
  const bodies: string[] = [];
  for (const { sheet, props } of sheets) {
    const loaded = (await SHEETS[sheet]()) as { default: Component };
    const { head, body } = render(loaded.default, { props });
    heads.add(head);
    bodies.push(body);
  }
  return [
    '<!doctype html>',
    '<html lang="en"><head><meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width">',
    `<title>${escaped(title)}</title>`,
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">`,
    ...heads,
    '</head><body>',
    ...bodies,
    '</body></html>',
    '',
  ].join('\n');
}

function escaped(text: string): string {
  return text.replace(/[&<>]/g, (c) => (c === '&' ? '&amp;' : c === '<' ? '&lt;' : '&gt;'));
}
