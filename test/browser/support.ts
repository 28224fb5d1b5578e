import { fileURLToPath } from 'node:url';
import {
  chromium,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Page,
} from 'playwright-core';
import { preview, type PreviewServer } from 'vite';
import { afterAll, afterEach, beforeAll, describe } from 'vitest';
import { chromiumPath } from '../../tools/chromium.mjs';

export interface ContextOptions extends Omit<BrowserContextOptions, 'colorScheme'> {
  readonly width?: number;
  readonly height?: number;
  readonly scheme?: 'light' | 'dark';
}

/** The built app in a Chromium. Valid inside the tests and hooks of its `describeApp`. */
export interface App {
  /** The address served, with a slash at its end. */
  readonly address: string;
  readonly browser: Browser;
  /** A new, empty profile; closed after the test. */
  context(options?: ContextOptions): Promise<BrowserContext>;
  /** A page on the app at a hash route (`'#/hulls'`), in a context of its own unless one is given. */
  open(options?: ContextOptions | BrowserContext, route?: string): Promise<Page>;
  /** Warnings and errors of any page that match are expected in this test; any other fails it. */
  expectMessage(pattern: RegExp): void;
}

const executablePath = chromiumPath();

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A suite against the built app, served on a free port: one server and one browser for the suite,
 *  a new profile for each context. A console warning, console error or uncaught exception in any page
 *  fails the test. Skipped where no Chromium is found, which the pretest step refuses under CI. */
export function describeApp(name: string, tests: (app: App) => void): void {
  describe.skipIf(executablePath === undefined)(name, () => {
    let server: PreviewServer | undefined;
    let browser: Browser | undefined;
    let address: string | undefined;
    const contexts: BrowserContext[] = [];
    const messages: string[] = [];
    const expected: RegExp[] = [];

    beforeAll(async () => {
      if (executablePath === undefined) throw new Error('no Chromium found');
      server = await serveDist();
      address = addressOf(server);
      browser = await chromium.launch({ executablePath, args: flags });
    });
    afterAll(async () => {
      await browser?.close();
      await server?.close();
    });
    afterEach(async () => {
      await Promise.all(contexts.splice(0).map((context) => context.close()));
      const patterns = expected.splice(0);
      const unexpected = messages
        .splice(0)
        .filter((message) => !patterns.some((pattern) => pattern.test(message)));
      if (unexpected.length > 0) throw new Error(`the page said:\n${unexpected.join('\n')}`);
    });

    const app: App = {
      get address() {
        return given(address);
      },
      get browser() {
        return given(browser);
      },
      async context({ width = 1440, height = 900, scheme = 'light', ...others } = {}) {
        const context = await given(browser).newContext({
          viewport: { width, height },
          colorScheme: scheme,
          ...others,
        });
        contexts.push(context);
        context.setDefaultTimeout(60_000);
        context.on('console', (message) => {
          if (message.type() === 'warning' || message.type() === 'error') {
            messages.push(`${message.type()}: ${message.text()}`);
          }
        });
        context.on('weberror', (error) => {
          messages.push(`uncaught: ${String(error.error())}`);
        });
        return context;
      },
      async open(where = {}, route = '') {
        const context = isContext(where) ? where : await app.context(where);
        const page = await context.newPage();
        await page.goto(`${given(address)}${route}`);
        return page;
      },
      expectMessage(pattern) {
        expected.push(pattern);
      },
    };
    tests(app);
  });
}

function isContext(where: ContextOptions | BrowserContext): where is BrowserContext {
  return 'newPage' in where;
}

async function serveDist(): Promise<PreviewServer> {
  return preview({
    configFile: fileURLToPath(new URL('../../vite.config.ts', import.meta.url)),
    logLevel: 'warn',
    preview: { host: '127.0.0.1', port: 0, strictPort: false, open: false },
  });
}

function addressOf(server: PreviewServer): string {
  const at = server.httpServer.address();
  if (at === null || typeof at === 'string') throw new Error('a TCP port expected');
  return `http://127.0.0.1:${String(at.port)}/`;
}

function given<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('the app stands only inside tests and hooks');
  return value;
}
