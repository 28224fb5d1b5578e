import { databaseAddress } from '../../../src/book/serverSetup/address.ts';
import { DESIGN_ID, SETUP_VERSION } from '../../../src/book/serverSetup/designDocument.ts';
import type { Database, Seq } from '../database.ts';
import { limited } from './limited.ts';
import { ServerFailure, serverFailureOf } from './serverFailure.ts';
import type { SharingSettings } from './settings.ts';

export type Fetch = (url: string, options?: RequestInit) => Promise<Response>;

export interface RemoteOptions {
  readonly settings: Pick<SharingSettings, 'server' | 'database' | 'user' | 'password'>;
  readonly fetch: Fetch;
  /** Opens a database by its address, asking with the fetch given. */
  readonly open: (address: string, fetch: Fetch) => Database;
  /** Whether this device has a network, as far as it knows. */
  readonly online: () => boolean;
}

/** A document that came or changed on the server, by its id and the revisions that it ends in. */
export interface RemoteChange {
  readonly id: string;
  readonly revs: readonly string[];
}

export interface RemoteChanges {
  readonly changes: readonly RemoteChange[];
  readonly seq: Seq;
}

export interface LocalDocument {
  readonly _rev?: string;
  readonly [field: string]: unknown;
}

/** An answer that a person waits for, ms. */
const ANSWER_WITHIN = 10_000;
/** Any other answer: a photo over a poor network takes its time. */
const EXCHANGE_WITHIN = 120_000;
/** How long the server may say nothing while there is nothing to say. */
const SILENT_WITHIN = 30_000;
/** Ids in one answer. */
const CHANGES_AT_ONCE = 2_000;

/** A yard's database on a server. The name and password go with each request and nowhere else: not into an address,
 *  which would be logged, nor into a cookie. */
export class Remote {
  readonly address: string;
  readonly database: Database;
  readonly #options: RemoteOptions;
  readonly #signed: string;
  /** Requests of the database that are under way, and when the last one ended. */
  #asking = 0;
  #lastAnswer = performance.now();
  readonly #failing = new Set<(error: unknown) => void>();

  constructor(options: RemoteOptions) {
    this.#options = options;
    const { server, database, user, password } = options.settings;
    this.address = databaseAddress(server, database);
    const utf8 = new TextEncoder().encode(`${user}:${password}`);
    this.#signed = `Basic ${btoa(String.fromCharCode(...utf8))}`;
    this.database = options.open(this.address, async (url, given) => {
      this.#asking += 1;
      try {
        return await this.#ask(url, EXCHANGE_WITHIN, given);
      } catch (error) {
        for (const heard of this.#failing) heard(error);
        throw error;
      } finally {
        this.#asking -= 1;
        this.#lastAnswer = performance.now();
      }
    });
    // A replication asks it to tell how much is left, which nobody is told here; and it lets go of the answer, so that one
    // that does not come would be an error that nobody catches.
    this.database.info = () => Promise.resolve({ update_seq: 0, doc_count: 0 });
  }

  /** For how long the database has been asked nothing, ms. */
  get quietFor(): number {
    return this.#asking > 0 ? 0 : performance.now() - this.#lastAnswer;
  }

  /** Calls back when a request of the database brought no answer; what is returned ends that. */
  onFailure(heard: (error: unknown) => void): () => void {
    this.#failing.add(heard);
    return () => this.#failing.delete(heard);
  }

  /** Why something failed that was asked of it: without a network nothing can be said of the server. */
  reasonOf(error: unknown): ServerFailure {
    const failure = serverFailureOf(error);
    const silent = failure.kind === 'unreachable' || failure.kind === 'refused';
    return silent && !this.#options.online() ? new ServerFailure('offline') : failure;
  }

  /** Whether everything is as it must be, tried in the order in which it can fail. Rejects with `ServerFailure`. */
  async check(): Promise<void> {
    const { server } = this.#options.settings;
    let session: Response;
    try {
      session = await this.#ask(`${server}/_session`, ANSWER_WITHIN);
    } catch (error) {
      throw await this.#unreached(error);
    }
    if (session.status === 401 || session.status === 403) throw new ServerFailure('password');
    const who: unknown = await session.json().catch(() => undefined);
    if (!session.ok || typeof who !== 'object' || who === null || !('userCtx' in who)) {
      throw new ServerFailure('no server', `status ${session.status}`);
    }
    for (const [path, missing] of [
      ['', 'no database'],
      [`/${DESIGN_ID}`, 'not set up'],
    ] as const) {
      const answer = await this.#ask(`${this.address}${path}`, ANSWER_WITHIN).catch(
        (error: unknown) => Promise.reject(serverFailureOf(error)),
      );
      if (answer.status === 404) throw new ServerFailure(missing);
      if (answer.status === 401 || answer.status === 403) throw new ServerFailure('rights');
      if (!answer.ok) throw new ServerFailure('other', `status ${answer.status}`);
      if (missing !== 'not set up') continue;
      const design = (await answer.json()) as { readonly version?: unknown };
      if (design.version !== SETUP_VERSION) throw new ServerFailure('not set up');
    }
  }

  /** What has come since, by id only, in parts; empty when there is nothing more. */
  async since(seq: Seq, signal: AbortSignal): Promise<RemoteChanges> {
    return this.#changes(seq, 'feed=normal', ANSWER_WITHIN * 3, signal);
  }

  /** Waits until something comes; may answer with nothing after a while. A server that says nothing for long is asked
   *  again rather than taken for dead: what stands between may hold its signs of life back. */
  async next(seq: Seq, signal: AbortSignal): Promise<RemoteChanges> {
    try {
      return await this.#changes(seq, 'feed=longpoll&heartbeat=10000', SILENT_WITHIN, signal);
    } catch (error) {
      if (error instanceof DOMException && error.name === 'TimeoutError') {
        return { changes: [], seq };
      }
      throw error;
    }
  }

  /** A document of this device's own on the server, which is never replicated; absent where there is none. */
  async local(name: string): Promise<LocalDocument | undefined> {
    const answer = await this.#ask(this.#localAddress(name), ANSWER_WITHIN);
    if (answer.status === 404) return undefined;
    return (await this.#answered(answer).json()) as LocalDocument;
  }

  async keepLocal(name: string, fields: LocalDocument): Promise<void> {
    const answer = await this.#ask(this.#localAddress(name), ANSWER_WITHIN, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(fields),
    });
    this.#answered(answer);
  }

  #localAddress(name: string): string {
    return `${this.address}/_local/aftrun-${name}`;
  }

  #answered(answer: Response): Response {
    if (answer.ok) return answer;
    throw Object.assign(new Error(`status ${answer.status}`), { status: answer.status });
  }

  async #changes(
    since: Seq,
    how: string,
    within: number,
    signal: AbortSignal,
  ): Promise<RemoteChanges> {
    const query = `since=${encodeURIComponent(String(since))}&style=all_docs&limit=${CHANGES_AT_ONCE}`;
    const answer = await this.#ask(`${this.address}/_changes?${how}&${query}`, within, { signal });
    const { results, last_seq } = (await this.#answered(answer).json()) as {
      readonly results: readonly {
        readonly id: string;
        readonly changes: readonly { readonly rev: string }[];
        readonly deleted?: boolean;
      }[];
      readonly last_seq: Seq;
    };
    return {
      changes: results.flatMap(({ id, changes, deleted }) =>
        deleted === true ? [] : [{ id, revs: changes.map(({ rev }) => rev) }],
      ),
      seq: last_seq,
    };
  }

  /** The whole answer, body and all, within the time. */
  #ask(url: string, within: number, given: RequestInit = {}): Promise<Response> {
    const headers = new Headers(given.headers);
    headers.set('authorization', this.#signed);
    return limited(within, given.signal, async (signal) => {
      const answer = await this.#options.fetch(url, {
        ...given,
        headers,
        signal,
        credentials: 'omit',
        cache: 'no-store',
      });
      const body = await answer.arrayBuffer();
      return new Response(body.byteLength === 0 ? null : body, answer);
    });
  }

  /** A browser does not say why nothing came: what it can still be asked narrows it down. */
  async #unreached(error: unknown): Promise<ServerFailure> {
    if (!this.#options.online()) return new ServerFailure('offline');
    const failure = serverFailureOf(error);
    if (failure.kind !== 'unreachable' || !(error instanceof TypeError)) return failure;
    const { server } = this.#options.settings;
    try {
      await limited(ANSWER_WITHIN, undefined, (signal) =>
        this.#options.fetch(`${server}/`, { mode: 'no-cors', credentials: 'omit', signal }),
      );
      return new ServerFailure('page', failure.detail);
    } catch {
      return server.startsWith('https:')
        ? new ServerFailure('certificate', failure.detail)
        : new ServerFailure('refused', failure.detail);
    }
  }
}
