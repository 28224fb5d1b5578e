import type { Entry } from '../../src/book/entry.ts';
import type { HullFacts } from './hullFacts.ts';

/** What a hull's summary says, worked out from its entries and what it said before. */
export type WorkOut = (entries: readonly Entry[], known?: HullFacts) => Promise<HullFacts>;

export interface SummaryJob {
  readonly entries: readonly Entry[];
  readonly known?: HullFacts;
}

export type SummaryAnswer =
  | { readonly ok: true; readonly facts: HullFacts }
  | { readonly ok: false; readonly reason: string };

/** How long the thread is kept without work, ms. */
const IDLE = 20_000;

/** Works it out on the page's own thread, loaded when it is first asked for. */
export const workOutHere: WorkOut = async (entries, known) =>
  (await import('./summary.ts')).factsOf(entries, known);

/** Works it out in a thread of its own, one hull after another; where no thread can be had, on the page's. */
export function workOutAside(
  after: (milliseconds: number, call: () => void) => () => void,
): WorkOut {
  let worker: Worker | undefined;
  let last: Promise<unknown> = Promise.resolve();
  let stopIdling: (() => void) | undefined;
  const end = (): void => {
    worker?.terminate();
    worker = undefined;
  };
  const ask = (job: SummaryJob): Promise<SummaryAnswer> => {
    stopIdling?.();
    worker ??= new Worker(new URL('./summaryWorker.ts', import.meta.url), { type: 'module' });
    const asked = worker;
    return new Promise((resolve, reject) => {
      asked.onmessage = ({ data }: MessageEvent<SummaryAnswer>) => resolve(data);
      asked.onerror = (event) => {
        end();
        reject(new Error(event.message));
      };
      asked.postMessage(job);
    });
  };
  const work: WorkOut = async (entries, known) => {
    let answer: SummaryAnswer;
    try {
      answer = await ask({ entries, ...(known !== undefined && { known }) });
    } catch {
      return workOutHere(entries, known);
    }
    stopIdling = after(IDLE, end);
    if (!answer.ok) throw new Error(answer.reason);
    return answer.facts;
  };
  return (entries, known) => {
    const done = last.then(() => work(entries, known));
    last = done.catch(() => undefined);
    return done;
  };
}
