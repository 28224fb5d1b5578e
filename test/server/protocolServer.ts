import { fork, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ADMIN = { user: 'office', password: 'an admin’s word' } as const;

const PROCESS = fileURLToPath(new URL('./serverProcess.ts', import.meta.url));

/** A server of the CouchDB protocol with authentication, rights and validation, in a process of its own. Killed, it ends
 *  in the middle of whatever it does; started again, it has what it had written, at the same port. Answers across origins
 *  are allowed, as a server for browsers must. */
export class ProtocolServer {
  /** Everything that it keeps. */
  readonly folder = mkdtempSync(join(tmpdir(), 'protocol-server-'));
  #process: ChildProcess | undefined;
  #port = 0;

  get address(): string {
    return `http://127.0.0.1:${this.#port}`;
  }

  async start(): Promise<void> {
    const child = fork(PROCESS, [ADMIN.user, ADMIN.password, this.folder, String(this.#port)], {
      execArgv: ['--import', 'tsx'],
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    this.#process = child;
    this.#port = await new Promise((resolve, reject) => {
      const early = (): void => reject(new Error('the server’s process ended'));
      child.once('exit', early);
      child.once('message', (said) => {
        child.off('exit', early);
        resolve((said as { readonly port: number }).port);
      });
    });
  }

  /** Kills its process, which has no time to put anything in order. */
  async kill(): Promise<void> {
    const child = this.#process;
    this.#process = undefined;
    if (child === undefined) return;
    const gone = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGKILL');
    await gone;
  }

  /** Ends it for good, with its data. */
  async end(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
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
