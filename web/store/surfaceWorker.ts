import { assess } from '../../src/survey/assess.ts';
import type { LogRead } from '../../src/survey/log/readLog.ts';
import { withSeries } from '../../src/survey/log/withSeries.ts';
import { surfaceFrom } from '../../src/survey/panels/surfaceFrom.ts';
import { KeptFiles } from './keptFiles.ts';
import type { SurfaceAnswer, SurfaceAsked } from './surfaceJobs.ts';

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
    const logs = new Map<string, LogRead>();
    for (const file of files) logs.set(file.entry, await kept.read(file, () => undefined));
    if (ask !== last) return;
    say({ is: 'found', ask, found: surfaceFrom(assess(withSeries(survey, logs)), unit) });
  } catch (error) {
    say({ is: 'failed', ask, reason: error instanceof Error ? error.message : String(error) });
  }
}
