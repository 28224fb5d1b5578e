import { expect, it } from 'vitest';
import { changeMap } from '../../../src/fit/surface/changeMap.ts';
import { seededNormals } from '../support.ts';
import { ALL, before, dent, dentOff, fitted, STRETCH } from './changeSupport.ts';
import { FIVE, readingsOn, sumOf } from './panelSupport.ts';

it('the map of what changed covers the change with its 95 % interval about as often as it says', () => {
  const wanted = dentOff(FIVE.lines);
  let held = 0;
  for (let run = 0; run < 40; run++) {
    const one = fitted(readingsOn(before, FIVE, 0.2, seededNormals(2 * run + 1)));
    const two = fitted(readingsOn(sumOf(before, dent), FIVE, 0.2, seededNormals(2 * run + 2)));
    const { z, u } = changeMap(one, two, ALL, STRETCH, { columns: 13, between: 0 });
    held += wanted.filter((v, i) => Math.abs(z[i] - v) <= 1.96 * u[i]).length / wanted.length;
  }
  expect(held / 40).toBeGreaterThan(0.92);
  expect(held / 40).toBeLessThan(0.995);
});
