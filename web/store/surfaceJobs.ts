import type { Survey } from '../../src/survey/survey.ts';
import type { SurfaceFound } from '../../src/survey/panels/surfaceFrom.ts';
import type { KeptFile } from './logJobs.ts';

export interface SurfaceAsked {
  readonly ask: number;
  readonly survey: Survey;
  readonly unit: Survey['workUnit'];
  readonly files: readonly KeptFile[];
}

export type SurfaceAnswer =
  | { readonly is: 'found'; readonly ask: number; readonly found: SurfaceFound }
  | { readonly is: 'failed'; readonly ask: number; readonly reason: string };
