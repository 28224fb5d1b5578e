import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const ADMIN = { user: 'office', password: 'an admin’s word' } as const;

const PROCESS = fileURLToPath(new URL('./serverProcess.ts', import.meta.url));

/** A server of the CouchDB protocol with authentication, rights and validation, in a process of its own. Killed, it
 *  breaks every connection off in the middle and keeps its data as a disk would; started again, it listens on the same
 *  port. Answers across origins are allowed, as a server for browsers must. */
export class ProtocolServer {
  #process: ChildProcess | undefined;
  #port = 0;

  get address(): string {
    return `http://127.0.0.1:${this.#port}`;
  }

  async start(): Promise<void> {
    this.#process ??= fork(PROCESS, [ADMIN.user, ADMIN.password], {
      execArgv: ['--import', 'tsx'],
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    this.#port = await this.#say('start');
  }

  /** Breaks every connection off, as a killed server does. */
  async kill(): Promise<void> {
    await this.#say('kill');
  }

  /** Ends it for good, with its data. */
  end(): void {
    this.#process?.disconnect();
    this.#process = undefined;
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

  #say(what: 'start' | 'kill'): Promise<number> {
    const child = this.#process;
    if (child === undefined) return Promise.resolve(this.#port);
    return new Promise((resolve, reject) => {
      child.once('exit', () => reject(new Error('the server’s process ended')));
      child.once('message', (said) => {
        child.removeAllListeners('exit');
        resolve((said as { readonly port: number }).port);
      });
      child.send(what);
    });
  }
}
