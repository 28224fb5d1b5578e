import { mkdtempSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { memoryPouch } from './memoryPouch.ts';

/** The process of a protocol server: express-pouchdb in full mode, its data in memory. It listens and breaks off as its
 *  parent says; what it cannot handle of a request that was broken off is not to end it. */

/** What express-pouchdb, which brings no types, is asked here. */
interface Couch {
  (request: unknown, response: unknown): void;
  readonly couchConfig: {
    set(section: string, key: string, value: string, done: () => void): void;
  };
}

interface Asked {
  readonly method: string;
  readonly headers: { readonly origin?: string };
}

interface Answered {
  setHeader(name: string, value: string): void;
  status(code: number): Answered;
  end(): void;
}

process.on('unhandledRejection', () => undefined);
process.on('uncaughtException', () => undefined);

const require = createRequire(import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'protocol-server-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
process.on('disconnect', () => process.exit());

const [user, password] = process.argv.slice(2);
const pouch = memoryPouch.defaults({ adapter: 'memory', prefix: 'server-' });
const sockets = new Set<Socket>();
let server: Server | undefined;
let port = 0;
let application: object | undefined;

/** Made once: it installs itself into its PouchDB, and twice it would answer nothing. */
async function makeApp(): Promise<object> {
  const expressPouch = require('express-pouchdb') as (pouch: unknown, options: object) => Couch;
  const couch = expressPouch(pouch, {
    mode: 'fullCouchDB',
    inMemoryConfig: true,
    logPath: join(folder, 'log.txt'),
  });
  const set = (section: string, key: string, value: string): Promise<void> =>
    new Promise((resolve) => couch.couchConfig.set(section, key, value, resolve));
  await set('log', 'level', 'none');
  await set('admins', user, password);
  const express = require('express') as () => { use(handler: unknown): void };
  const app = express();
  app.use((request: Asked, response: Answered, next: () => void) => {
    response.setHeader('access-control-allow-origin', request.headers.origin ?? '*');
    response.setHeader('access-control-allow-headers', 'authorization, content-type, accept');
    response.setHeader('access-control-allow-methods', 'GET, HEAD, POST, PUT, DELETE');
    response.setHeader('access-control-max-age', '600');
    if (request.method === 'OPTIONS') response.status(204).end();
    else next();
  });
  app.use(couch);
  return app;
}

async function start(): Promise<void> {
  application ??= await makeApp();
  const made = createServer(application as never);
  made.on('connection', (socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
    socket.on('error', () => undefined);
  });
  server = made;
  await new Promise<void>((resolve, reject) => {
    made.once('error', reject);
    made.listen(port, '127.0.0.1', resolve);
  });
  port = (made.address() as AddressInfo).port;
}

async function kill(): Promise<void> {
  const ending = server;
  server = undefined;
  if (ending === undefined) return;
  const closed = new Promise((resolve) => ending.close(resolve));
  for (const socket of sockets) socket.destroy();
  await closed;
}

process.on('message', (said) => {
  void (said === 'start' ? start() : kill()).then(() => process.send?.({ port }));
});
