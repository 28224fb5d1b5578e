import type { Change, Database, LiveChanges, Seq, StoredDocument } from './database.ts';

/** A document that is there or has come, with every content that it has. */
export interface Arrival {
  readonly id: string;
  /** True where the document was deleted; its leaves are then of no account. */
  readonly deleted: boolean;
  /** The contents of its winning revision and of those in conflict with it. */
  readonly leaves: readonly StoredDocument[];
}

export interface FeedOptions {
  readonly arrived: (arrivals: readonly Arrival[]) => void;
  readonly failed: (error: unknown) => void;
  readonly after: (milliseconds: number, call: () => void) => () => void;
  readonly onVisible: (call: () => void) => () => void;
}

export interface Feed {
  /** Settles when everything that was there has been handed over. */
  readonly ready: Promise<void>;
  /** Reads what has come since. */
  readonly again: () => Promise<void>;
  readonly stop: () => void;
}

const READ = { include_docs: true, conflicts: true } as const;

/** Hands over every document of a database, then each that comes, from this tab or another: first `update_seq`, then
 *  all documents, then the changes since, so that nothing falls between. A document may come more than once: merge by
 *  id. Other tabs are heard through storage events, which a browser may not send to a page in the background, so it
 *  reads again when the page is seen. `failed` is called at most once; then the feed has stopped. */
export function follow(opening: Promise<Database>, options: FeedOptions): Feed {
  let stopped = false;
  let last: Seq = 0;
  let live: LiveChanges | undefined;
  let queue: Change[] = [];
  let waiting: (() => void) | undefined;

  const stop = (): void => {
    stopped = true;
    waiting?.();
    live?.cancel();
    stopSeeing();
  };
  const fail = (error: unknown): void => {
    if (stopped) return;
    stop();
    options.failed(error);
  };
  const hand = async (documents: readonly Change[]): Promise<void> => {
    const database = await opening;
    const arrivals = await Promise.all(documents.map((change) => arrivalOf(database, change)));
    if (!stopped && arrivals.length > 0) options.arrived(arrivals);
  };
  const heard = (change: Change): void => {
    queue.push(change);
    last = change.seq;
    waiting ??= options.after(0, () => {
      waiting = undefined;
      const taken = queue;
      queue = [];
      hand(taken).catch(fail);
    });
  };
  const again = async (): Promise<void> => {
    if (stopped) return;
    const database = await opening;
    const { results, last_seq } = await database.changes({ ...READ, since: last });
    last = last_seq;
    await hand(results);
  };
  const begin = async (): Promise<void> => {
    const database = await opening;
    const { update_seq } = await database.info();
    const { rows } = await database.allDocs(READ);
    await hand(rows.flatMap(({ id, doc }) => (doc ? [{ id, seq: update_seq, doc }] : [])));
    if (stopped) return;
    last = update_seq;
    const changes = database.changes({ ...READ, since: update_seq, live: true });
    // It is a promise too, whose refusal would go unheard.
    changes.then(undefined, fail);
    live = changes.on('change', heard).on('error', fail);
  };
  const ready = begin();
  ready.catch(fail);
  const stopSeeing = options.onVisible(() => {
    ready.then(again).catch(fail);
  });
  return { ready, again, stop };
}

async function arrivalOf(database: Database, { id, deleted, doc }: Change): Promise<Arrival> {
  if (deleted === true || doc === undefined) return { id, deleted: true, leaves: [] };
  const others = (doc._conflicts ?? []).map((rev) => database.get(id, { rev }));
  return { id, deleted: false, leaves: [doc, ...(await Promise.all(others))] };
}
