/** The largest of values that are 0 or more, from place `low` up to but not at `high`; 0 where there are none. */
export function largestOf(values: Float64Array, low = 0, high = values.length): number {
  let best = 0;
  for (let i = low; i < high; i++) if (values[i] > best) best = values[i];
  return best;
}
