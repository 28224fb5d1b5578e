import { mkdtempSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { memoryPouch } from './memoryPouch.ts';

/** What express-pouchdb, which brings no types, is asked here. */
interface Couch {
  (request: unknown, response: unknown): void;
  readonly couchConfig: {
    set(section: string, key: string, value: string, done: () => void): void;
  };
}

const require = createRequire(import.meta.url);

export const ADMIN = { user: 'office', password: 'an admin’s word' } as const;

let count = 0;

/** A server of the CouchDB protocol with authentication, rights and validation: express-pouchdb in full mode, its data in
 *  memory. Stopped, it breaks every connection off in the middle and keeps its data as a disk would; started again,
 *  it listens on the same port. Answers across origins are allowed, as a server for browsers must. */
export class ProtocolServer {
  readonly #pouch: unknown;
  #server: Server | undefined;
  #port = 0;
  readonly #sockets = new Set<Socket>();
  /** Requests that were served, as method and path. */
  readonly asked: string[] = [];

  constructor() {
    this.#pouch = memoryPouch.defaults({ adapter: 'memory', prefix: `server-${(count += 1)}-` });
  }

  get address(): string {
    return `http://127.0.0.1:${this.#port}`;
  }

  async start(): Promise<void> {
    const expressPouch = require('express-pouchdb') as (pouch: unknown, options: object) => Couch;
    const couch = expressPouch(this.#pouch, {
      mode: 'fullCouchDB',
      inMemoryConfig: true,
      logPath: join(mkdtempSync(join(tmpdir(), 'protocol-server-')), 'log.txt'),
    });
    await set(couch, 'log', 'level', 'none');
    await set(couch, 'admins', ADMIN.user, ADMIN.password);
    const express = require('express') as () => { use(handler: unknown): void };
    const app = express();
    app.use((request: Asked, response: Answered, next: () => void) => {
      this.asked.push(`${request.method} ${request.url}`);
      response.setHeader('access-control-allow-origin', request.headers.origin ?? '*');
      response.setHeader('access-control-allow-headers', 'authorization, content-type, accept');
      response.setHeader('access-control-allow-methods', 'GET, HEAD, POST, PUT, DELETE');
      response.setHeader('access-control-max-age', '600');
      if (request.method === 'OPTIONS') response.status(204).end();
      else next();
    });
    app.use(couch);
    const server = createServer(app as never);
    server.on('connection', (socket) => {
      this.#sockets.add(socket);
      socket.on('close', () => this.#sockets.delete(socket));
      socket.on('error', () => undefined);
    });
    this.#server = server;
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject);
      server.listen(this.#port, '127.0.0.1', resolve);
    });
    this.#port = (server.address() as AddressInfo).port;
  }

  /** Breaks every connection off, as a killed server does. */
  async kill(): Promise<void> {
    const server = this.#server;
    this.#server = undefined;
    if (server === undefined) return;
    const closed = new Promise((resolve) => server.close(resolve));
    for (const socket of this.#sockets) socket.destroy();
    await closed;
  }

  /** Asks as an admin; the status and what was answered. */
  async ask(
    method: string,
    path: string,
    body?: unknown,
    as: { readonly user: string; readonly password: string } = ADMIN,
  ): Promise<{ readonly status: number; readonly answer: unknown }> {
    const response = await fetch(`${this.address}${path}`, {
      method,
      headers: {
        authorization: `Basic ${Buffer.from(`${as.user}:${as.password}`).toString('base64')}`,
        'content-type': 'application/json',
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
      signal: AbortSignal.timeout(20_000),
    });
    return { status: response.status, answer: await response.json() };
  }

  /** Makes a user, or gives one another password. */
  async user(name: string, password: string): Promise<void> {
    const path = `/_users/org.couchdb.user:${name}`;
    const { status, answer } = await this.ask('GET', path);
    const rev = status === 200 ? { _rev: (answer as { readonly _rev: string })._rev } : {};
    await this.ask('PUT', path, { ...rev, name, password, type: 'user', roles: [] });
  }
}

interface Asked {
  readonly method: string;
  readonly url: string;
  readonly headers: { readonly origin?: string };
}

interface Answered {
  setHeader(name: string, value: string): void;
  status(code: number): Answered;
  end(): void;
}

function set(couch: Couch, section: string, key: string, value: string): Promise<void> {
  return new Promise((resolve) => couch.couchConfig.set(section, key, value, resolve));
}
