import { reasonOf } from '../../store/reasonOf.ts';
import type { JudgeAsked, JudgeSaid } from './jobs.ts';
import { Judging } from './judging.ts';

/** Judges surveys, and works out what follows from that, off the page's own thread. */

const judging = new Judging();

self.onmessage = ({ data: { ask, job } }: MessageEvent<JudgeAsked>): void => {
  judging
    .answer(job, (progress) => say({ ask, is: 'progress', progress }))
    .then(
      (answer) => say({ ask, is: 'answer', answer }),
      (error: unknown) => say({ ask, is: 'failed', reason: reasonOf(error) }),
    )
    // An answer that cannot be sent is a failure too.
    .catch((error: unknown) => say({ ask, is: 'failed', reason: reasonOf(error) }));
};

function say(said: JudgeSaid): void {
  self.postMessage(said);
}
