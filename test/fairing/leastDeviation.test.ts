import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { deviationAt, leastDeviation, type Deviation } from '../../src/fairing/leastDeviation.ts';

const folder = new URL('../../fixtures/reference/robust_fit/', import.meta.url);
const textOf = (name: string) => readFileSync(new URL(name, folder), 'utf8');

interface Reference {
  readonly engel: {
    readonly published: Readonly<Record<string, readonly [number, number]>>;
    readonly published_median_sum_abs_dev: number;
    readonly computed_check_loss: { readonly '0.50': number };
    readonly computed_here_linear_programming: Readonly<Record<string, readonly [number, number]>>;
  };
  readonly stackloss: { readonly published_L1: readonly number[]; readonly sum_abs_dev: number };
}
const reference = JSON.parse(textOf('lad_quantile_reference.json')) as Reference;

const rows = (name: string) =>
  textOf(name)
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => line.split(',').map(Number));

function found(answer: ReturnType<typeof leastDeviation>) {
  if (!answer.ok) throw new Error(answer.reason);
  return answer;
}

const engel = (tau: number): Deviation[] =>
  rows('engel.csv').map(([x, y]) => ({ a: [1, x], b: y, above: 1 - tau, below: tau }));

test.each(Object.keys(reference.engel.published))(
  'the %s quantile of the Engel data is the published line to its five decimals',
  (tau) => {
    const { at, cost, bound } = found(
      leastDeviation({ unknowns: 2, deviations: engel(Number(tau)) }),
    );
    const published = reference.engel.published[tau];
    expect(at[0]).toBeCloseTo(published[0], 4);
    expect(at[1]).toBeCloseTo(published[1], 5);
    expect(cost - bound).toBeLessThan(1e-6 * cost);
  },
);

test('the other quantiles of the Engel data agree with a linear programme solved elsewhere, to eight decimals of the slope', () => {
  for (const [tau, line] of Object.entries(reference.engel.computed_here_linear_programming)) {
    const { at } = found(leastDeviation({ unknowns: 2, deviations: engel(Number(tau)) }));
    expect(at[0]).toBeCloseTo(line[0], 5);
    expect(at[1]).toBeCloseTo(line[1], 8);
  }
});

test('the sum of absolute deviations of the Engel data is twice the computed check loss, and the published sum to its six digits', () => {
  const deviations = engel(0.5).map((row) => ({ ...row, above: 1, below: 1 }));
  const { cost } = found(leastDeviation({ unknowns: 2, deviations }));
  expect(cost / 2).toBeCloseTo(reference.engel.computed_check_loss['0.50'], 6);
  // The published fit had not converged to its last digits: its sum lies half a thousandth under the least one.
  expect(cost).toBeCloseTo(reference.engel.published_median_sum_abs_dev, 2);
});

test('the stack-loss data have the published least absolute fit, with three variables and a constant', () => {
  const deviations = rows('stackloss.csv').map(([loss, ...x]) => ({
    a: [1, ...x],
    b: loss,
    above: 1,
    below: 1,
  }));
  const { at, cost } = found(leastDeviation({ unknowns: 4, deviations }));
  expect(at).toEqual(reference.stackloss.published_L1.map((v) => expect.closeTo(v, 8) as number));
  expect(cost).toBeCloseTo(reference.stackloss.sum_abs_dev, 8);
});

test('a line through points that lie on one costs nothing', () => {
  const deviations = [0, 1, 2, 5].map((x) => ({ a: [1, x], b: 3 - 2 * x, above: 1, below: 4 }));
  const { at, cost } = found(leastDeviation({ unknowns: 2, deviations }));
  expect(at).toEqual([expect.closeTo(3, 9), expect.closeTo(-2, 9)]);
  expect(cost).toBeCloseTo(0, 9);
});

test('a limit is kept, and the rest is as little as it allows', () => {
  // The median of 0, 0, 9 is 0; held at 2 or more, the cost is 2 + 2 + 7.
  const deviations = [0, 0, 9].map((b) => ({ a: [1], b, above: 1, below: 1 }));
  const limits = [{ a: [-1], b: -2 }];
  const { at, cost } = found(leastDeviation({ unknowns: 1, deviations, limits }));
  expect(at[0]).toBeCloseTo(2, 9);
  expect(cost).toBeCloseTo(11, 9);
});

test('limits that leave nothing are told as such', () => {
  const deviations = [{ a: [1], b: 0, above: 1, below: 1 }];
  const limits = [
    { a: [1], b: 1 },
    { a: [-1], b: -2 },
  ];
  expect(leastDeviation({ unknowns: 1, deviations, limits })).toEqual({
    ok: false,
    reason: 'no answer within the limits',
  });
});

test('no point anywhere costs less than what was found', () => {
  const number = fc.double({ min: -10, max: 10, noNaN: true });
  fc.assert(
    fc.property(fc.array(number, { minLength: 5, maxLength: 40 }), number, number, (b, p, q) => {
      const deviations = b.map((value, i) => ({ a: [1, i / 10], b: value, above: 1, below: 2 }));
      const { cost, bound } = found(leastDeviation({ unknowns: 2, deviations }));
      return cost - bound <= 1e-7 * (1 + cost) && cost <= deviationAt(deviations, [p, q]) + 1e-7;
    }),
    { seed: 21, numRuns: 200 },
  );
});

test('rows of another length, values that are not finite and costs below 0 are refused', () => {
  const row = { a: [1, 1], b: 0, above: 1, below: 1 };
  for (const bad of [{ a: [1] }, { b: NaN }, { above: -1 }, { below: Infinity }]) {
    expect(() => leastDeviation({ unknowns: 2, deviations: [{ ...row, ...bad }] })).toThrow(
      RangeError,
    );
  }
});
