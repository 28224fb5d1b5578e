import { expect, test } from 'vitest';
import { deviationAt } from '../../../src/fairing/leastDeviation.ts';
import { followTarget } from '../../../src/fairing/plan/followTarget.ts';
import {
  programmeFor,
  solveTarget,
  type Terms,
} from '../../../src/fairing/plan/targetProgramme.ts';
import { stretchOf } from '../../../src/fairing/plan/targetShape.ts';

function stretch(k: number, turn: number) {
  const profile = Array.from({ length: 61 }, (_, i) => ({
    x: 25 * i,
    z: 2 * Math.sin(i / (7 + k)) + 0.2 * Math.sin(3.1 * i * k) - i / (10 + k),
  }));
  const made = stretchOf(profile, 1500, { length: 300, turn });
  if (made === undefined) throw new Error('a stretch expected');
  return made;
}

const TERMS: readonly Terms[] = [
  { way: 'fill only', grindWeight: 1 },
  { way: 'grind only', grindWeight: 1, grindLimit: 50 },
  { way: 'least work', grindWeight: 2, grindLimit: 0.8 },
  { way: 'least work', grindWeight: 0.7, grindLimit: 50 },
];

test.each(TERMS)(
  'on its own surface, with its miss held, it costs what the target that was solved does and keeps its limits: %o',
  (terms) => {
    for (let k = 1; k <= 12; k++) {
      const on = stretch(k, 0.001);
      const solved = solveTarget([on], terms);
      if (!solved.ok) throw new Error('possible');
      const { miss, rise } = followTarget(on, solved.figures[0], terms, false)(on.z);
      expect(miss).toBe(solved.figures[0].miss);
      // Two targets may cost the same; what they cost is one figure.
      const { deviations, limits } = programmeFor([on], terms);
      expect(deviationAt(deviations, [miss, rise])).toBeCloseTo(solved.cost, 5);
      for (const { a, b } of limits) expect(a[0] * miss + a[1] * rise).toBeLessThan(b + 1e-5);
    }
  },
);

test('a straight line added to the surface moves the target with it and changes no depth', () => {
  const on = stretch(3, 0.001);
  const terms = TERMS[0];
  const follow = followTarget(on, { miss: 0, rise: 0 }, terms, true);
  const before = follow(on.z);
  const after = follow(on.z.map((z, i) => z + 4 - on.x[i] / 150));
  expect(after.miss).toBe(before.miss);
  expect(after.rise).toBeCloseTo(before.rise + 1500 / 150, 9);
});
