import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createRequire } from 'node:module';
import { join } from 'node:path';

import { diskDown } from './diskDown.ts';
import { memoryPouch } from './memoryPouch.ts';

/** The process of a protocol server: express-pouchdb in full mode, its data in a folder. It ends when it is killed, or with
 *  its parent; what it cannot handle of a request that was broken off is not to end it.
 *  Arguments: the admin's name and password, the folder, the port (0: any that is free). */

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
process.on('disconnect', () => process.exit());

const [user, password, folder, port] = process.argv.slice(2);
const disk = diskDown(join(folder, 'data'));
const pouch = memoryPouch.defaults({ adapter: 'memory', prefix: 'server-', db: disk });

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

const app = await makeApp();
const server = createServer(app as never);
server.on('connection', (socket) => {
  socket.on('error', () => undefined);
  // express-pouchdb stops a waiting feed when its connection closes, but hears that only once it has begun to wait: a feed
  // that was broken off before would wait for good.
  const on = socket.on.bind(socket) as (event: string, heard: () => void) => typeof socket;
  socket.on = ((event: string, heard: () => void) => {
    if (event === 'close' && socket.destroyed) setImmediate(heard);
    return on(event, heard);
  }) as typeof socket.on;
});
await new Promise<void>((resolve, reject) => {
  server.once('error', reject);
  server.listen(Number(port), '127.0.0.1', resolve);
});
process.send?.({ port: (server.address() as AddressInfo).port });
