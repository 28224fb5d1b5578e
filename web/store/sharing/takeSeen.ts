import type { Database, StoredDocument } from '../database.ts';
import { entryIn } from '../entryStore.ts';
import type { Pulled } from './exchange.ts';
import type { RemoteChange } from './remote.ts';
import type { Partner } from './replication.ts';

/** What is asked of a PouchDB database here beside what the store asks. */
interface Bulk {
  bulkGet(options: {
    readonly docs: readonly { readonly id: string; readonly rev: string }[];
    readonly revs: true;
  }): Promise<{
    readonly results: readonly {
      readonly id: string;
      readonly docs: readonly { readonly ok?: StoredDocument }[];
    }[];
  }>;
}

/** What came, and what of it has files and was left. */
export interface Taken extends Pulled {
  readonly withFiles: readonly string[];
}

/** Takes entries without files whose ids and revisions the server's feed has told. A replication would ask for its
 *  checkpoint, then for every change through a filter, then for the entries; beside photos, each question waits its turn.
 *  What the server does not give is left: whoever asks looks what is still missing. */
export async function takeSeen(
  local: Database,
  remote: Partner,
  seen: readonly RemoteChange[],
  signal: AbortSignal,
): Promise<Taken> {
  if (seen.length === 0) return { written: 0, odd: [], withFiles: [] };
  const docs = seen.flatMap(({ id, revs }) => revs.map((rev) => ({ id, rev })));
  const asked = (remote.database as unknown as Bulk).bulkGet({ docs, revs: true });
  const { results } = await unlessCalledOff(asked, signal);
  const came = results.flatMap((result) => result.docs.flatMap(({ ok }) => (ok ? [ok] : [])));
  const bare = came.filter(({ _attachments: files }) => files === undefined);
  const [failed] = await local.bulkDocs(bare, { new_edits: false });
  if (failed?.error !== undefined) {
    throw Object.assign(new Error('this device’s database refused an entry'), failed);
  }
  return {
    written: bare.length,
    odd: bare.flatMap((document) => {
      const read = entryIn(document);
      return read.ok ? [] : [{ id: document._id, reason: `${read.reason}, found ${read.found}` }];
    }),
    withFiles: came.flatMap(({ _id, _attachments: files }) => (files === undefined ? [] : [_id])),
  };
}

/** What was asked for, or a rejection when it is called off before that comes. */
async function unlessCalledOff<T>(asked: Promise<T>, signal: AbortSignal): Promise<T> {
  signal.throwIfAborted();
  let callOff = (): void => undefined;
  const calledOff = new Promise<never>((_, reject) => {
    callOff = () =>
      reject(signal.reason instanceof Error ? signal.reason : new Error('called off'));
    signal.addEventListener('abort', callOff);
  });
  try {
    return await Promise.race([asked, calledOff]);
  } finally {
    signal.removeEventListener('abort', callOff);
  }
}
