import type { LogSeries } from './logReadings.ts';

/** Readings of a log as they come in, in the order of rows. Grows by doubling. */
export class LogColumn {
  x = new Float64Array(64);
  gap = new Float64Array(64);
  row = new Uint32Array(64);
  weight: Uint32Array | undefined;
  look: Uint32Array | undefined;
  count = 0;
  leastGap = Infinity;
  mostGap = -Infinity;

  push(x: number, gap: number, row: number): void {
    if (this.count === this.x.length) this.#grow();
    this.x[this.count] = x;
    this.gap[this.count] = gap;
    this.row[this.count] = row;
    if (gap < this.leastGap) this.leastGap = gap;
    if (gap > this.mostGap) this.mostGap = gap;
    this.count += 1;
  }

  /** That the reading pushed last is itself an average of many. */
  weigh(weight: number): void {
    this.weight ??= new Uint32Array(this.x.length).fill(1);
    this.weight[this.count - 1] = weight;
  }

  #grow(): void {
    const size = 2 * this.x.length;
    this.x = grown(this.x, new Float64Array(size));
    this.gap = grown(this.gap, new Float64Array(size));
    this.row = grown(this.row, new Uint32Array(size));
    if (this.weight !== undefined) {
      const weight = new Uint32Array(size).fill(1);
      weight.set(this.weight);
      this.weight = weight;
    }
  }
}

function grown<T extends Float64Array | Uint32Array>(from: T, into: T): T {
  into.set(from);
  return into;
}

/** A column with a look number, since two looks at a station are two readings. */
export interface LookedAt {
  readonly look: number;
  readonly column: LogColumn;
}

/** The readings of one lay from aft forward, those of one station and look averaged with their weights, as the log of
 *  a smaller file is: rounded to a millionth of a mm. Time grows with their number where they come in order, either
 *  way, and nearly so where they do not. */
export function seriesOf(parts: readonly LookedAt[]): LogSeries {
  const all = parts.length === 1 ? parts[0].column : gathered(parts);
  const order = orderOf(all);
  const n = all.count;
  const x = new Float64Array(n);
  const gap = new Float64Array(n);
  const row = new Uint32Array(n);
  const weight = new Uint32Array(n);
  let kept = -1;
  let sum = 0;
  let many = false;
  let look = -1;
  const close = (): void => {
    if (kept < 0 || !many) return;
    gap[kept] = Math.round((sum / weight[kept]) * 1e6) / 1e6;
  };
  for (let k = 0; k < n; k += 1) {
    const i = order === undefined ? k : order[k];
    const one = all.weight === undefined ? 1 : all.weight[i];
    const at = all.look === undefined ? 1 : all.look[i];
    if (kept >= 0 && x[kept] === all.x[i] && look === at) {
      many = true;
      weight[kept] += one;
      sum += one * all.gap[i];
      continue;
    }
    close();
    kept += 1;
    x[kept] = all.x[i];
    gap[kept] = all.gap[i];
    row[kept] = all.row[i];
    weight[kept] = one;
    sum = one * all.gap[i];
    many = false;
    look = at;
  }
  close();
  const size = kept + 1;
  const weighted = weight.subarray(0, size).some((each) => each !== 1);
  return {
    x: x.slice(0, size),
    gap: gap.slice(0, size),
    row: row.slice(0, size),
    ...(weighted && { weight: weight.slice(0, size) }),
  };
}

function gathered(parts: readonly LookedAt[]): LogColumn {
  const all = new LogColumn();
  const looked = parts.some(({ look }) => look !== parts[0].look);
  const looks: number[] = [];
  for (const { column, look } of parts) {
    for (let i = 0; i < column.count; i += 1) {
      all.push(column.x[i], column.gap[i], column.row[i]);
      if (column.weight !== undefined && column.weight[i] !== 1) all.weigh(column.weight[i]);
      if (looked) looks.push(look);
    }
  }
  if (looked) all.look = Uint32Array.from(looks);
  return all;
}

/** Indices by station, look and row; undefined where they stand so already. */
function orderOf(all: LogColumn): Uint32Array | undefined {
  const { x, row, look, count } = all;
  const differ = (a: number, b: number): number =>
    x[a] - x[b] || (look === undefined ? 0 : look[a] - look[b]) || row[a] - row[b];
  let forward = true;
  for (let i = 1; i < count && forward; i += 1) forward = differ(i - 1, i) <= 0;
  if (forward) return undefined;

  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < count; i += 1) {
    if (x[i] < low) low = x[i];
    if (x[i] > high) high = x[i];
  }
  // Sorted into shelves first, so that each is short.
  const shelves = Math.max(1, count >> 2);
  const scale = high > low ? (shelves - 1) / (high - low) : 0;
  const starts = new Uint32Array(shelves + 1);
  for (let i = 0; i < count; i += 1) starts[Math.floor((x[i] - low) * scale) + 1] += 1;
  for (let s = 0; s < shelves; s += 1) starts[s + 1] += starts[s];
  const order = new Uint32Array(count);
  const next = starts.slice();
  for (let i = 0; i < count; i += 1) order[next[Math.floor((x[i] - low) * scale)]++] = i;
  for (let s = 0; s < shelves; s += 1) {
    const [from, to] = [starts[s], starts[s + 1]];
    if (to - from < 2) continue;
    let sorted = true;
    for (let k = from + 1; k < to && sorted; k += 1) sorted = differ(order[k - 1], order[k]) <= 0;
    if (!sorted) order.subarray(from, to).sort(differ);
  }
  return order;
}
