/** A rolling log of one line, made in memory from a seed: a hollow of 2 mm, scatter of 0.02 mm, read to 0.01 mm. */
export function madeLog(rows: number): {
  readonly text: string;
  readonly x: Float64Array;
  readonly gap: Float64Array;
} {
  const random = seeded(7);
  const x = new Float64Array(rows);
  const gap = new Float64Array(rows);
  const lines = ['# kind: log', '# read to: 0.01 mm', 'side,offset_mm,station_mm,gap_mm'];
  for (let i = 0; i < rows; i += 1) {
    const station = ((1500 * i) / (rows - 1)).toFixed(4);
    const scatter = 0.02 * Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
    const read = Math.max(0, 2 * Math.sin((Math.PI * i) / rows) + scatter).toFixed(2);
    x[i] = Number(station);
    gap[i] = Number(read);
    lines.push(`port,450,${station},${read}`);
  }
  return { text: `${lines.join('\n')}\n`, x, gap };
}

/** Numbers between 0 and 1 (Park and Miller 1988, minimal standard). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
