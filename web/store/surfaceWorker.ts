import { assess } from '../../src/survey/assess.ts';
import { surfaceFrom } from '../../src/survey/panels/surfaceFrom.ts';
import { KeptFiles } from './keptFiles.ts';
import type { SurfaceAnswer, SurfaceAsked } from './surfaceJobs.ts';
import { reasonOf } from './reasonOf.ts';

/** Each side of a bottom as one surface, off the page's own thread. Of several questions only the last is answered. */

const kept = new KeptFiles();
let last = 0;

self.onmessage = ({ data }: MessageEvent<SurfaceAsked>): void => {
  last = data.ask;
  void answer(data);
};

function say(answered: SurfaceAnswer): void {
  self.postMessage(answered);
}

async function answer({ ask, survey, unit, files }: SurfaceAsked): Promise<void> {
  try {
    const whole = await kept.whole(survey, files);
    if (ask !== last) return;
    say({ is: 'found', ask, found: surfaceFrom(assess(whole), unit) });
  } catch (error) {
    say({ is: 'failed', ask, reason: reasonOf(error) });
  }
}
