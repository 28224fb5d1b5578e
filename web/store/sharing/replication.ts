import type { Database, StoredDocument } from '../database.ts';
import { limited } from './limited.ts';

/** A server's database. */
export interface Partner {
  readonly database: Database;
  /** Calls back when a request of the database failed; the answer ends that. */
  onFailure(heard: (error: unknown) => void): () => void;
  /** For how long it has been asked nothing, ms. */
  readonly quietFor: number;
  /** Rejects where it does not answer as it must. */
  check(): Promise<void>;
}

export interface Replication extends PromiseLike<{ readonly docs_written: number }> {
  on(event: 'denied', heard: (denied: unknown) => void): Replication;
  on(
    event: 'change',
    heard: (change: { readonly docs: readonly StoredDocument[] }) => void,
  ): Replication;
  cancel(): void;
}

/** How long one replication may take, ms. It keeps its place, so that one cut short goes on from there. */
const REPLICATE_WITHIN = 300_000;
/** How long one may take to end by itself once a request of it brought no answer, ms: PouchDB's replication has been seen
 *  to stand still after that, without ending or failing. */
const FAIL_WITHIN = 300;
/** How long it may ask nothing of the server, ms, whatever else may make it stand still. */
const STUCK = 10_000;

/** Resolves or rejects when a replication has ended, and rejects when it is called off or takes too long: one that is
 *  cancelled between two answers may not end by itself. */
export function ended(
  replication: Replication,
  remote: Partner,
  outer: AbortSignal,
): Promise<{ readonly docs_written: number }> {
  const begun = performance.now();
  let timer: ReturnType<typeof setInterval> | undefined;
  let failing: ReturnType<typeof setTimeout> | undefined;
  let deaf = (): void => undefined;
  return limited(REPLICATE_WITHIN, outer, (signal) => {
    const calledOff = new Promise<never>((_, reject) => {
      const callOff = (): void => {
        replication.cancel();
        reject(signal.reason instanceof Error ? signal.reason : new Error('called off'));
      };
      if (signal.aborted) callOff();
      else signal.addEventListener('abort', callOff);
    });
    const watch = new Promise<never>((_, reject) => {
      timer = setInterval(() => {
        if (Math.min(remote.quietFor, performance.now() - begun) < STUCK) return;
        replication.cancel();
        reject(new DOMException('the exchange stood still', 'TimeoutError'));
      }, STUCK / 5);
    });
    const failed = new Promise<never>((_, reject) => {
      deaf = remote.onFailure((error) => {
        failing ??= setTimeout(() => {
          replication.cancel();
          reject(error instanceof Error ? error : new Error(String(error)));
        }, FAIL_WITHIN);
      });
    });
    return Promise.race([replication, calledOff, watch, failed]).finally(() => {
      clearInterval(timer);
      clearTimeout(failing);
      deaf();
    });
  });
}
