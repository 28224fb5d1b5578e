import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import type { Component } from 'svelte';
import { createServer } from 'vite';

export interface SheetPages {
  page(file: string, props: Readonly<Record<string, unknown>>): Promise<string>;
  close(): Promise<void>;
}

/** Renders components of web/sheets to whole pages with their styles, without the app. */
export async function sheetPages(): Promise<SheetPages> {
  const server = await createServer({
    configFile: false,
    root: fileURLToPath(new URL('../../', import.meta.url)),
    logLevel: 'error',
    appType: 'custom',
    server: { middlewareMode: true, ws: false, watch: null },
    optimizeDeps: { noDiscovery: true },
    plugins: [svelte({ configFile: false, compilerOptions: { runes: true, css: 'injected' } })],
  });
  const { render } = (await server.ssrLoadModule('svelte/server')) as {
    render: (component: Component, options: object) => { head: string; body: string };
  };
  return {
    async page(file, props) {
      const module = await server.ssrLoadModule(`/web/sheets/${file}`);
      const { head, body } = render(module['default'] as Component, { props });
      return `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Sheet</title>${head}</head><body>${body}</body></html>`;
    },
    close: () => server.close(),
  };
}
