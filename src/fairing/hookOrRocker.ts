import type { Verdict } from '../fit/judge.ts';

/** Whether something on a line is proven beyond the tolerance: what there is to work. */
export function hookOrRocker(verdict: readonly Verdict[]): boolean {
  return verdict.some((word) => word === 'hook' || word === 'rocker');
}
