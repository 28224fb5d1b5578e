import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
import { chromiumPath } from '../tools/chromium.mjs';

export interface Served {
  /** With a slash at its end. */
  readonly address: string;
  /** Of Chromium. */
  readonly executablePath: string;
  readonly close: () => Promise<void>;
}

/** Serves the app as it is built in dist, on a free port unless one is named: what a browser keeps belongs to an
 *  address, and so to a port. Throws where no Chromium is found, or the port named is taken. */
export async function served(port = 0): Promise<Served> {
  const executablePath = chromiumPath();
  if (executablePath === undefined) throw new Error('no Chromium found');
  const server = await preview({
    configFile: fileURLToPath(new URL('../vite.config.ts', import.meta.url)),
    logLevel: 'warn',
    preview: { host: '127.0.0.1', port, strictPort: port !== 0, open: false },
  });
  const at = server.httpServer.address();
  if (at === null || typeof at === 'string') throw new Error('a TCP port expected');
  return {
    address: `http://127.0.0.1:${String(at.port)}/`,
    executablePath,
    close: () => server.close(),
  };
}

/** What Chromium is started with: nothing that it does for itself. */
export const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
] as const;
