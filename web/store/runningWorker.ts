import { tailOfSurvey, type SurveyTail } from '../../src/running/tailOfSurvey.ts';
import { whatIf } from '../../src/running/whatIf/whatIf.ts';
import { assess } from '../../src/survey/assess.ts';
import { KeptFiles } from './keptFiles.ts';
import type { RunningAnswer, RunningAsked } from './runningJobs.ts';
import { reasonOf } from './reasonOf.ts';

/** Works out how a boat runs off the page's own thread. Of several questions only the last is answered. */

const kept = new KeptFiles();
let known: { readonly said: string; readonly tail: SurveyTail } | undefined;
let last = 0;

self.onmessage = ({ data }: MessageEvent<RunningAsked>): void => {
  last = data.ask;
  void answer(data);
};

function say(answered: RunningAnswer): void {
  self.postMessage(answered);
}

async function answer({ ask, boat, survey, speeds, at }: RunningAsked): Promise<void> {
  try {
    const tail = survey && (await tailIn(survey));
    if (tail) say({ is: 'tail', ask, tail });
    // A newer question may have come in meanwhile.
    await new Promise((resolve) => setTimeout(resolve, 0));
    if (ask !== last || boat === undefined) return;
    const whole = { ...boat, ...(tail?.tail && { tail: tail.tail }) };
    say({ is: 'found', ask, found: whatIf(whole, speeds, at) });
  } catch (error) {
    say({ is: 'failed', ask, reason: reasonOf(error) });
  }
}

async function tailIn(given: NonNullable<RunningAsked['survey']>): Promise<SurveyTail> {
  const said = JSON.stringify([given.key, given.survey]);
  if (known?.said === said) return known.tail;
  const tail = tailOfSurvey(assess(await kept.whole(given.survey, given.files)));
  known = { said, tail };
  return tail;
}
