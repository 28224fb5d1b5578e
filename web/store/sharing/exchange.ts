import { HULL_FILTER } from '../../../src/book/serverSetup/designDocument.ts';
import type { Change, Database, Seq } from '../database.ts';
import { entryIn, isDesign } from '../entryStore.ts';
import { inHalves } from './inHalves.ts';
import { ended, type Partner, type Replication } from './replication.ts';
import { serverFailureOf } from './serverFailure.ts';

/** Whether entries with files are meant, or those without: each go by themselves, so that readings pass photos. */
export type Files = 'yes' | 'no';

/** An entry that the server refuses to take. It stands here all the same. */
export interface Denied {
  readonly id: string;
  readonly why: string;
}

/** A document that came and cannot be read as an entry. It is kept. */
export interface Odd {
  readonly id: string;
  readonly reason: string;
}

/** What the exchange asks of a PouchDB database beside what the store does. */
interface Shared extends Database {
  readonly replicate: {
    to(other: Database, options: object): Replication;
    from(other: Database, options: object): Replication;
  };
}

interface ChangesSince {
  changes(options: { readonly since: Seq; readonly include_docs: true }): PromiseLike<{
    readonly results: readonly Change[];
  }>;
}

interface ByKeys {
  allDocs(options: { readonly keys: readonly string[]; readonly conflicts: true }): Promise<{
    readonly rows: readonly {
      readonly key: string;
      readonly value?: { readonly rev: string } | null;
    }[];
  }>;
}

const BATCH = { no: 500, yes: 4 } as const;

/** Gives a server what it has not of a hull's entries; those that it refused. `whole`: everything is compared, whatever
 *  was given before. Rejects with the error of either. */
export async function push(
  local: Database,
  remote: Partner,
  files: Files,
  whole: boolean,
  signal: AbortSignal,
): Promise<readonly Denied[]> {
  const selector = { _attachments: { $exists: files === 'yes' } };
  // Checkpoints of replication are not enough: of a server brought back from a copy made while one replication was under
  // way, they can say that it has what it has not.
  const from = whole ? { since: 0 } : {};
  return pushed(local, remote, { selector, batch_size: BATCH[files], ...from }, signal);
}

/** What came: how many documents, and those of them that are no entries. */
export interface Pulled {
  readonly written: number;
  readonly odd: readonly Odd[];
}

/** Takes from a server what this device has not of a hull. */
export async function pull(
  local: Database,
  remote: Partner,
  hull: string,
  files: Files,
  signal: AbortSignal,
): Promise<Pulled> {
  const options = {
    filter: HULL_FILTER,
    query_params: { files, hull },
    batch_size: BATCH[files],
  };
  return pulled(local, remote, options, signal);
}

/** Gives a server what it has not of some entries, and offers again what it refused: replication by itself never does.
 *  One that cannot be given stops no other. */
export async function pushThese(
  local: Database,
  remote: Partner,
  files: Files,
  ids: readonly string[],
  signal: AbortSignal,
): Promise<readonly Denied[]> {
  const denied = await inHalves<readonly Denied[]>(ids, {
    atOnce: BATCH[files],
    act: (some) => pushed(local, remote, onlyThese(some), signal),
    without: (id, error) => [{ id, why: serverFailureOf(error).detail }],
    answers: (error) => answering(remote, error),
    signal,
  });
  return denied.flat();
}

/** Takes documents from a server so that one that cannot be had stops no other; otherwise as `pull`. */
export async function pullThese(
  local: Database,
  remote: Partner,
  files: Files,
  ids: readonly string[],
  signal: AbortSignal,
): Promise<Pulled> {
  const parts = await inHalves<Pulled>(ids, {
    atOnce: BATCH[files],
    act: (some) => pulled(local, remote, onlyThese(some), signal),
    without: (id, error) => {
      const reason = `it could not be fetched: ${serverFailureOf(error).detail}`;
      return { written: 0, odd: [{ id, reason }] };
    },
    answers: (error) => answering(remote, error),
    signal,
  });
  return {
    written: parts.reduce((sum, { written }) => sum + written, 0),
    odd: parts.flatMap(({ odd }) => odd),
  };
}

/** Rejects where a failure is this device's, whose disk may be full, or the server does not answer. */
async function answering(remote: Partner, error: unknown): Promise<void> {
  if (serverFailureOf(error).kind === 'device') throw error;
  await remote.check();
}

/** Compared whatever was exchanged before. */
function onlyThese(ids: readonly string[]): object {
  return { doc_ids: [...ids], since: 0, checkpoint: false, batch_size: ids.length };
}

/** An entry that the server has not, as far as is known. */
export interface Waiting {
  readonly id: string;
  readonly files: Files;
}

/** The entries of a hull that were written here and came from no server, as far as is known: what stands after the
 *  places up to which entries without and with files were given. */
export async function waitingSince(
  local: Database,
  given: Readonly<Record<Files, Seq>>,
): Promise<readonly Waiting[]> {
  const from = { no: Number(given.no), yes: Number(given.yes) };
  const since = Math.min(from.no, from.yes);
  const { results } = await (local as unknown as ChangesSince).changes({
    since,
    include_docs: true,
  });
  return results
    .filter(({ id, deleted }) => deleted !== true && !isDesign(id))
    .map(({ id, seq, doc }): Waiting & { readonly seq: Seq } => {
      return { id, seq, files: doc?.['_attachments'] === undefined ? 'no' : 'yes' };
    })
    .filter(({ seq, files }) => Number(seq) > from[files]);
}

/** Of some documents of the server, the ids of those that this device has not. `revs`: the revisions that they end in
 *  there; with none, any content counts. */
export async function missingHere(
  local: Database,
  changes: readonly { readonly id: string; readonly revs: readonly string[] }[],
): Promise<readonly string[]> {
  const { rows } = await (local as unknown as ByKeys).allDocs({
    keys: changes.map(({ id }) => id),
    conflicts: true,
  });
  return changes
    .filter(({ revs }, i) => {
      const rev = rows[i]?.value?.rev;
      return rev === undefined || revs.length > 1 || (revs.length === 1 && revs[0] !== rev);
    })
    .map(({ id }) => id);
}

async function pushed(
  local: Database,
  remote: Partner,
  options: object,
  signal: AbortSignal,
): Promise<readonly Denied[]> {
  const denied: Denied[] = [];
  const replication = (local as Shared).replicate.to(remote.database, options);
  replication.on('denied', (what) => denied.push(deniedIn(what)));
  await ended(replication, remote, signal);
  return denied;
}

async function pulled(
  local: Database,
  remote: Partner,
  options: object,
  signal: AbortSignal,
): Promise<Pulled> {
  const odd: Odd[] = [];
  const replication = (local as Shared).replicate.from(remote.database, options);
  replication.on('change', ({ docs }) => {
    for (const document of docs) {
      const read = entryIn(document);
      if (!read.ok) odd.push({ id: document._id, reason: `${read.reason}, found ${read.found}` });
    }
  });
  const { docs_written: written } = await ended(replication, remote, signal);
  return { written, odd };
}

function deniedIn(what: unknown): Denied {
  const error = ((what as { readonly doc?: unknown }).doc ?? what) as {
    readonly id?: string;
    readonly docId?: string;
    readonly reason?: string;
    readonly message?: string;
  };
  return {
    id: error.id ?? error.docId ?? '',
    why: (error.reason ?? error.message ?? 'refused').slice(0, 300),
  };
}
