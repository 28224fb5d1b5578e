/** Savitsky (1964), figure 18: the trim above which a prismatic hull porpoises, degrees, against √(CL/2) and deadrise.
 *  The figures are a machine reading of the printed chart, good to about 0.3°; they rest on Day and Haag (1952), Planing
 *  Boat Porpoising, Webb Institute. The one figure that the author himself states, 4.5° at 0.186 and 10°, lies within
 *  0.1° (test/running/planing/porpoising.test.ts). */
const DEADRISES = [0, 10, 20] as const;
const POINTS: readonly { readonly loading: number; readonly limits: readonly number[] }[] = [
  { loading: 0.13, limits: [1.1, 2.7, 3.4] },
  { loading: 0.15, limits: [1.8, 3.3, 4.0] },
  { loading: 0.2, limits: [3.8, 4.9, 5.7] },
  { loading: 0.25, limits: [6.2, 7.0, 7.9] },
  { loading: 0.3, limits: [9.1, 9.5, 10.3] },
];

/** What the chart may be misread by, degrees. */
export const CHART_READING = 0.3;

/** The limit by straight lines between the chart's points; undefined off the chart: deadrise 0° to 20°, √(CL/2) 0.13 to
 *  0.30. Never carried past its edges. */
export function figure18(deadrise: number, loading: number): number | undefined {
  if (!(deadrise >= 0 && deadrise <= 20)) return undefined;
  const next = POINTS.findIndex((point) => loading <= point.loading);
  if (next < 0 || loading < POINTS[0].loading) return undefined;
  const to = Math.max(1, next);
  const [before, after] = [POINTS[to - 1], POINTS[to]];
  const along = (loading - before.loading) / (after.loading - before.loading);
  const limits = before.limits.map((limit, i) => limit + along * (after.limits[i] - limit));
  const column = deadrise < DEADRISES[1] ? 0 : 1;
  const across = (deadrise - DEADRISES[column]) / (DEADRISES[column + 1] - DEADRISES[column]);
  return limits[column] + across * (limits[column + 1] - limits[column]);
}
