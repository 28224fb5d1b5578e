import type { BodyOf } from '../kinds/kinds.ts';

/** What runs are called that say only whether they were before or after the one change. */
export const UNNAMED = { before: 'before the change', after: 'after the change' } as const;

/** The name of the trial that a run belongs to. */
export function trialNameOf({ trial, set }: BodyOf<'sea trial'>): string {
  return trial ?? UNNAMED[set ?? 'before'];
}
