import { expect, it } from 'vitest';
import { bestPlane } from '../../../src/fit/surface/bestPlane.ts';
import { fitPanel, type Panel } from '../../../src/fit/surface/fitPanel.ts';
import { panelMap } from '../../../src/fit/surface/panelMap.ts';
import { twistOf } from '../../../src/fit/surface/twist.ts';
import { seededNormals } from '../support.ts';
import { FIVE, readingsOn, round, sumOf, twisted } from './panelSupport.ts';

const FLOOR = 15;
const surface = sumOf(twisted(2e-6), round(-1.2, [500, 450], [260, 190]));

function fitted(...args: Parameters<typeof fitPanel>): Panel {
  const panel = fitPanel(...args);
  if (!panel.ok) throw new Error(panel.reason);
  return panel;
}

it('a panel has intervals for its twist and its map that cover the truth about as often as they say', () => {
  // 60 seeded panels here; npm run study:surface counts 500.
  let [twists, places] = [0, 0];
  const looked = [0, 3, 6, 9, 12].flatMap((c) => [0, 2, 4].map((i) => ({ c, i })));
  const x = Array.from({ length: 13 }, (_, i) => 125 * i);
  const nodes = FIVE.lines.flatMap((y) => x.map((at) => ({ x: at, y })));
  const flatten = bestPlane(
    nodes.map((n) => n.x),
    nodes.map((n) => n.y),
    nodes.map((n) => (n.y === 150 || n.y === 750 ? 75 : 150)),
    false,
  );
  const truth = Float64Array.from(nodes, (n) => surface(n.x, n.y));
  flatten(truth);
  const wanted = twistOf(fitted(FIVE.lines, readingsOn(surface, FIVE, 1e-5), FLOOR), [0, 1500], {
    tolerance: 1.5,
    over: 1500,
  });
  for (let run = 0; run < 60; run++) {
    const panel = fitted(FIVE.lines, readingsOn(surface, FIVE, 0.2, seededNormals(run + 1)), FLOOR);
    const twist = twistOf(panel, [0, 1500], { tolerance: 1.5, over: 1500 });
    if (!twist || !wanted) throw new Error('a twist is known here');
    if (Math.abs(twist.corner - wanted.corner) < 1.96 * twist.cornerU) twists++;
    const map = panelMap(panel, [0, 1500], { columns: 13, between: 0 });
    for (const { c, i } of looked) {
      const at = i * 13 + c;
      if (Math.abs(map.z[at] - truth[at]) < 1.96 * map.u[at]) places++;
    }
  }
  expect(twists / 60).toBeGreaterThan(0.88);
  expect(places / 60 / looked.length).toBeGreaterThan(0.91);
  expect(places / 60 / looked.length).toBeLessThan(0.985);
});
