import { FAMILIES } from './families.ts';
import { cellsOf } from './plan.ts';

/** Answers each family's place in the list with its cells. */
process.on('message', ({ index, runs, seed }: { index: number; runs: number; seed: number }) => {
  process.send?.(cellsOf(FAMILIES[index], runs, seed));
});
