import * as fc from 'fast-check';
import { expect, it } from 'vitest';

import { rings } from '../../src/book/rings.ts';

const always = (): boolean => true;

it('gives the parts of a graph, each before every part that it leads to', () => {
  // 0 leads to the ring 1, 2, 3; that leads to 4.
  const parts = rings([[1], [2], [3, 4], [1], []], always);
  expect(parts.map((part) => part.toSorted())).toEqual([[0], [1, 2, 3], [4]]);
});

it('passes over nodes that do not count', () => {
  const parts = rings([[1], [2], [0]], (node) => node !== 1);
  expect(parts.map((part) => part.toSorted())).toEqual([[2], [0]]);
});

it('puts two nodes in one part exactly when each can be reached from the other', () => {
  const graphs = fc.array(fc.array(fc.nat(7), { maxLength: 3 }), { minLength: 8, maxLength: 8 });
  fc.assert(
    fc.property(graphs, (next) => {
      // Transitive closure after Warshall, J. ACM 9 (1962), 11-12.
      const reach = next.map((list, from) => next.map((_, to) => from === to || list.includes(to)));
      for (let by = 0; by < 8; by += 1) {
        for (const row of reach) {
          if (row[by]) reach[by].forEach((yes, to) => (row[to] ||= yes));
        }
      }
      const parts = rings(next, always);
      expect(parts.flat().toSorted()).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
      parts.forEach((part, place) => {
        for (const later of parts.slice(place)) {
          for (const [a, b] of part.flatMap((from) => later.map((to) => [from, to]))) {
            if (later === part) expect(reach[a][b] && reach[b][a]).toBe(true);
            else expect(reach[b][a]).toBe(false);
          }
        }
      });
    }),
    { seed: 65, numRuns: 500 },
  );
});
