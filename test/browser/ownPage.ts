import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { build, preview } from 'vite';

/** A page that only tests see, built into a folder of its own and served on a free port. */
export interface OwnPage {
  readonly address: string;
  close(): Promise<void>;
}

/** Builds and serves a folder beside this file. `headers`: sent with every answer. */
export async function serveOwnPage(
  name: string,
  headers: Readonly<Record<string, string>> = {},
): Promise<OwnPage> {
  const folder = await mkdtemp(join(tmpdir(), `aftrun-${name}-`));
  const root = fileURLToPath(new URL(`./${name}/`, import.meta.url));
  const svelteConfig = fileURLToPath(new URL('../../svelte.config.js', import.meta.url));
  const common = { configFile: false, root, logLevel: 'warn' } as const;
  await build({
    ...common,
    plugins: [svelte({ configFile: svelteConfig })],
    build: {
      outDir: folder,
      emptyOutDir: true,
      target: 'es2022',
      chunkSizeWarningLimit: 2_000,
      // On a busy machine it would warn of how long it took, and a warning fails a test.
      rolldownOptions: { checks: { bundlerTimings: false } },
    },
  });
  const server = await preview({
    ...common,
    build: { outDir: folder },
    preview: { host: '127.0.0.1', port: 0, open: false, headers: { ...headers } },
  });
  const at = server.httpServer.address();
  if (at === null || typeof at === 'string') throw new Error('a TCP port expected');
  return {
    address: `http://127.0.0.1:${String(at.port)}/`,
    close: async () => {
      await server.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
