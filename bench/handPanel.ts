import { normalSequence } from '../src/fit/normalSequence.ts';
import type { PanelPlacement } from '../src/fit/surface/panelReadings.ts';

/** An invented panel of 1500 mm by 700 mm, slightly twisted, with a hollow of 1.2 mm, read to 0.2 mm: so many lines and
 *  stations, so many placements athwart, and both diagonals. */
export function handPanel(
  lines: number,
  stations: number,
  athwart: number,
): { readonly lines: readonly number[]; readonly placements: readonly PanelPlacement[] } {
  const y = Array.from({ length: lines }, (_, i) => 100 + (700 * i) / (lines - 1));
  const x = Array.from({ length: stations }, (_, k) => (1500 * k) / (stations - 1));
  const noise = normalSequence(lines * (stations + athwart + 2));
  let next = 0;
  const height = (at: number, across: number) =>
    1e-6 * at * across - 1.2 * Math.exp(-(((at - 400) / 250) ** 2) - ((across - 400) / 200) ** 2);
  const lay = (line: readonly number[], at: readonly number[]): PanelPlacement => ({
    line,
    x: at,
    gap: at.map((v, k) => 3 + 0.001 * v - height(v, y[line[k]]) + 0.2 * noise[next++]),
    u: at.map(() => 0.2),
  });
  const every = y.map((_, i) => i);
  const across = (inner: number, outer: number) =>
    lay(
      every,
      every.map((i) => inner + ((outer - inner) * i) / (lines - 1)),
    );
  return {
    lines: y,
    placements: [
      ...every.map((i) =>
        lay(
          x.map(() => i),
          x,
        ),
      ),
      ...Array.from({ length: athwart }, (_, k) => {
        const at = (1500 * k) / (athwart - 1);
        return across(at, at);
      }),
      across(200, 1300),
      across(1300, 200),
    ],
  };
}
