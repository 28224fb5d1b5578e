import type { SurveyTail } from '../../src/running/tailOfSurvey.ts';
import type { WhatIfBoat } from '../../src/running/whatIf/boat.ts';
import type { WhatIf } from '../../src/running/whatIf/whatIf.ts';
import type { NoLoad } from '../../src/running/weights/loads.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { KeptFile } from './logJobs.ts';

/** A boat of which is asked how it runs; its tail is taken from the survey. */
export interface RunningAsked {
  readonly ask: number;
  /** Absent while weights, beam or deadrise are not known: then only the tail is told. */
  readonly boat?: Omit<WhatIfBoat, 'tail'>;
  readonly survey?: {
    readonly key: string;
    readonly survey: Survey;
    readonly files: readonly KeptFile[];
  };
  /** m/s */
  readonly speeds: readonly number[];
  readonly at: number;
}

export type RunningAnswer =
  | { readonly is: 'tail'; readonly ask: number; readonly tail: SurveyTail }
  | { readonly is: 'found'; readonly ask: number; readonly found: WhatIf | NoLoad }
  | { readonly is: 'failed'; readonly ask: number; readonly reason: string };
