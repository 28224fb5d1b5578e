/** Logs made in memory from a seed, for tests: nothing of them is measured. */
export interface MadeLog {
  readonly rows: number;
  readonly delimiter?: ',' | ';' | '\t';
  readonly comma?: boolean;
  readonly newline?: string;
  /** Rows a station. */
  readonly each?: number;
  readonly head?: readonly string[];
}

/** A hollow of 2 mm under a rolling log, with a scatter of 0.02 mm. */
export function madeLog({
  rows,
  delimiter = ',',
  comma = false,
  newline = '\n',
  each = 1,
  head = ['# kind: log', '# read to: 0.01 mm'],
}: MadeLog): string {
  const random = seeded(7);
  const stations = Math.ceil(rows / each);
  const number = (value: number, digits: number): string => {
    const text = value.toFixed(digits);
    return comma ? text.replace('.', ',') : text;
  };
  const lines = [...head, ['side', 'offset_mm', 'station_mm', 'gap_mm'].join(delimiter)];
  for (let i = 0; i < rows; i += 1) {
    const station = (1500 * Math.floor(i / each)) / (stations - 1);
    const gap = Math.max(0, 2 * Math.sin((Math.PI * station) / 1500) + 0.04 * (random() - 0.5));
    lines.push(['port', '450', number(station, 3), number(gap, 2)].join(delimiter));
  }
  return `${lines.join(newline)}${newline}`;
}

/** Numbers from 0 to 1, the same for the same seed (Park and Miller 1988, minimal standard). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
