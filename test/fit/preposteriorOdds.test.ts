import { expect, it } from 'vitest';
import { judge } from '../../src/fit/judge.ts';
import { fitProfile } from '../../src/fit/posterior.ts';
import { outlook, type NewReadings } from '../../src/fit/preposterior.ts';
import { rowsOf } from '../../src/fit/readingRows.ts';
import { again, lineWith, normals, question, T } from './outlookSupport.ts';

/** The act carried out: truths from the posterior, readings simulated of them, refitted and judged. */
function carriedOut(
  { profile, readings }: ReturnType<typeof lineWith>,
  act: NewReadings,
  times: number,
): number {
  const rows = rowsOf(profile);
  const draws = rows.draws(200, 200 + times);
  const normal = normals(77);
  let decided = 0;
  for (let k = 0; k < times; k++) {
    const { unknowns, noise } = draws[2 * k];
    const [offset, tilt] = act.placement === undefined ? [normal(), normal()] : [0, 0];
    const gap = act.x.map(
      (x, i) =>
        -rows.at(rows.row(x, 0), unknowns) +
        act.u[i] * noise * normal() +
        offset +
        (tilt * x) / 1500,
    );
    const all =
      act.placement === undefined
        ? [readings, { x: act.x, gap, u: act.u }]
        : [
            {
              x: [...readings.x, ...act.x],
              gap: [...readings.gap, ...gap],
              u: [...readings.u, ...act.u],
            },
          ];
    const after = fitProfile(all, 10 * T);
    if (!after.ok) throw new Error(after.reason);
    if (!judge(after, question).verdict.includes('undecided')) decided++;
  }
  return decided / times;
}

// Reference: the act itself, simulated 60 times, refitted and judged; that is known to ± 0.13 at two standard errors,
// and 24 truths are drawn here, to ± 0.2.
it('what more readings would do to an open verdict is foretold as often as carrying the act out and judging anew decides it', () => {
  const lines = [
    lineWith(1.9, 800, 0.3, 100, 11),
    lineWith(1.2, 900, 0.5, 125, 12),
    lineWith(-1.8, 700, 0.3, 150, 13),
    lineWith(0.6, 800, 0.5, 100, 14),
  ];
  const off: number[] = [];
  for (const line of lines) {
    const view = outlook(line.profile, question);
    for (const act of [again(line.readings.x, 0.15), again(line.readings.x, 0.3)]) {
      off.push(view.chances([act]).decided - carriedOut(line, act, 60));
    }
  }
  const mean = off.reduce((sum, value) => sum + value, 0) / off.length;
  const spread = Math.sqrt(off.reduce((sum, value) => sum + value * value, 0) / off.length);
  expect(Math.abs(mean)).toBeLessThan(0.12);
  expect(spread).toBeLessThan(0.22);
}, 120_000);
