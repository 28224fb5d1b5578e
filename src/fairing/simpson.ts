/** Weights that make a sum of ordinates their integral, and by which rule. */
export interface SumRule {
  readonly weights: readonly number[];
  readonly rule: 'Simpson' | 'trapezoids' | 'mixed' | 'one ordinate';
}

/** Ordinates at x, ascending, at least one. Where they stand evenly spaced, Simpson's first rule (1 4 1); where an
 *  even run has an odd number of spaces, three or more, the last three by his second rule (1 3 3 1); a space of a
 *  width of its own by trapezoid. A single ordinate spans nothing. Exact for cubics where no trapezoid is needed.
 *  Throws RangeError on no ordinates, or places that do not ascend.
 *  Source: Simpson's rules as in Tupper, Introduction to Naval Architecture, ch. 3. */
export function simpsonWeights(x: readonly number[]): SumRule {
  const n = x.length;
  if (n === 0) throw new RangeError('at least one ordinate expected, got none');
  const weights = new Array<number>(n).fill(0);
  if (n === 1) return { weights, rule: 'one ordinate' };
  const rules = new Set<'Simpson' | 'trapezoids'>();
  for (let from = 0; from < n - 1;) {
    const h = x[from + 1] - x[from];
    if (!(h > 0)) throw new RangeError(`ascending places expected, got ${x[from + 1]}`);
    let to = from + 1;
    while (to + 1 < n && Math.abs(x[to + 1] - x[to] - h) <= 1e-6 * h) to++;
    rules.add(addRun(weights, from, to, (x[to] - x[from]) / (to - from)));
    from = to;
  }
  return { weights, rule: rules.size > 1 ? 'mixed' : [...rules][0] };
}

/** Area under ordinates y at x. */
export function areaUnder(x: readonly number[], y: readonly number[]): number {
  if (y.length !== x.length) {
    throw new RangeError(`an ordinate at each place expected, got ${y.length} at ${x.length}`);
  }
  return simpsonWeights(x).weights.reduce((sum, weight, i) => sum + weight * y[i], 0);
}

function addRun(weights: number[], from: number, to: number, h: number): 'Simpson' | 'trapezoids' {
  const spaces = to - from;
  if (spaces === 1) {
    weights[from] += h / 2;
    weights[to] += h / 2;
    return 'trapezoids';
  }
  const first = spaces % 2 === 0 ? to : to - 3;
  for (let i = from; i < first; i += 2) {
    weights[i] += h / 3;
    weights[i + 1] += (4 * h) / 3;
    weights[i + 2] += h / 3;
  }
  if (first < to) {
    [1, 3, 3, 1].forEach((multiplier, k) => (weights[first + k] += (3 * h * multiplier) / 8));
  }
  return 'Simpson';
}
