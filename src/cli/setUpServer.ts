import { designDocument } from '../book/serverSetup/designDocument.ts';
import { securityOf } from '../book/serverSetup/security.ts';

export interface SetupOptions {
  /** The address of the database. */
  readonly address: string;
  readonly database: string;
  readonly user: string;
  readonly password: string;
  readonly members: readonly string[];
  readonly admins: readonly string[];
  readonly fetch: typeof globalThis.fetch;
}

export interface SetupStep {
  readonly what: string;
  readonly how: string;
}

export type SetupDone =
  | { readonly ok: true; readonly steps: readonly SetupStep[] }
  | { readonly ok: false; readonly steps: readonly SetupStep[]; readonly reason: string };

interface Answer {
  readonly status: number;
  readonly body: Readonly<Record<string, unknown>>;
}

const WITHIN = 30_000;

/** Makes a database fit for sharing: the database, who may use it, then the filter and the validation. Each step leaves
 *  what stands already. What was done before a step failed stays, and the same may be run again. */
export async function setUpServer(options: SetupOptions): Promise<SetupDone> {
  const steps: SetupStep[] = [];
  try {
    const made = await ask(options, 'PUT', '');
    if (made.status !== 412) demand(made, [201, 202], 'the database');
    steps.push({
      what: `database ${options.database}`,
      how: made.status === 412 ? 'was there' : 'created',
    });
    const before = await ask(options, 'GET', '/_security');
    demand(before, [200], 'the rights');
    const rights = securityOf(options.database, options, before.body);
    demand(
      await ask(options, 'PUT', '/_security', { ...before.body, ...rights }),
      [200],
      'the rights',
    );
    steps.push({ what: 'rights', how: 'members may read and add; nobody else' });
    steps.push({ what: 'filter and validation', how: await putDesign(options) });
    return { ok: true, steps };
  } catch (error) {
    return { ok: false, steps, reason: reasonOf(error) };
  }
}

async function putDesign(options: SetupOptions): Promise<string> {
  const design = designDocument();
  const path = `/${design._id}`;
  const before = await ask(options, 'GET', path);
  if (before.status === 404) {
    demand(await ask(options, 'PUT', path, design), [201, 202], 'the filter and validation');
    return 'installed; entries can be added, and never changed or deleted';
  }
  demand(before, [200], 'the filter and validation');
  const { _rev, ...stands } = before.body;
  if (typeof stands['version'] === 'number' && stands['version'] > design.version) {
    throw new Refusal(
      `a newer setup is there (version ${stands['version']}); use that version of aftrun`,
    );
  }
  if (Object.entries(design).every(([key, value]) => sameJson(stands[key], value)))
    return 'were there';
  demand(
    await ask(options, 'PUT', path, { ...design, _rev }),
    [201, 202],
    'the filter and validation',
  );
  return 'brought up to date';
}

async function ask(
  { address, user, password, fetch }: SetupOptions,
  method: string,
  path: string,
  body?: unknown,
): Promise<Answer> {
  const answer = await fetch(`${address}${path}`, {
    method,
    headers: {
      authorization: `Basic ${Buffer.from(`${user}:${password}`, 'utf8').toString('base64')}`,
      'content-type': 'application/json',
    },
    ...(body !== undefined && { body: JSON.stringify(body) }),
    signal: AbortSignal.timeout(WITHIN),
  });
  const read: unknown = await answer.json().catch(() => undefined);
  if (typeof read !== 'object' || read === null) {
    throw new Refusal('what answers there is no server of the CouchDB protocol');
  }
  return { status: answer.status, body: read as Answer['body'] };
}

class Refusal extends Error {}

function demand({ status, body }: Answer, expected: readonly number[], what: string): void {
  if (expected.includes(status)) return;
  if (status === 401 || status === 403) {
    throw new Refusal(`${what}: wrong name or password, or not an admin of the server`);
  }
  const said = typeof body['reason'] === 'string' ? `: ${body['reason'].slice(0, 200)}` : '';
  throw new Refusal(`${what}: the server answered ${status}${said}`);
}

function reasonOf(error: unknown): string {
  if (error instanceof Refusal) return error.message;
  const cause: unknown = error instanceof Error ? error.cause : undefined;
  const code =
    typeof cause === 'object' && cause !== null && 'code' in cause ? String(cause.code) : '';
  if (code === 'ECONNREFUSED')
    return 'the server refuses the connection: nothing runs at that address and port';
  if (/CERT|SELF_SIGNED|UNABLE_TO_VERIFY|ERR_TLS/.test(code)) {
    return `the server's certificate is not trusted here (${code})`;
  }
  return `the server does not answer${code === '' ? '' : ` (${code})`}`;
}

function sameJson(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
