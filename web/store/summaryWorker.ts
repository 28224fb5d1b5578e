import { factsOf } from './summary.ts';
import type { SummaryAnswer, SummaryJob } from './summaryClient.ts';
import { reasonOf } from './reasonOf.ts';

/** Works out what the yard's list shows of a hull, off the page's own thread: two surveys are judged and compared. */
self.onmessage = ({ data: { entries, known } }: MessageEvent<SummaryJob>): void => {
  self.postMessage(answer(() => factsOf(entries, known)));
};

function answer(work: () => ReturnType<typeof factsOf>): SummaryAnswer {
  try {
    return { ok: true, facts: work() };
  } catch (error) {
    return { ok: false, reason: reasonOf(error) };
  }
}
