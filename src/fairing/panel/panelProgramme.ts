import type { AtMost, Deviation, Programme } from '../leastDeviation.ts';
import { allowed, type Terms } from '../plan/targetProgramme.ts';
import { shapeAt, type Stretch, type TargetFigures } from '../plan/targetShape.ts';

/** What a whole panel is brought to: one plane; or every line straight fore and aft, the panel's own twist left in it. */
export const PANEL_TARGETS = ['one plane', 'straight buttocks'] as const;
export type PanelTarget = (typeof PANEL_TARGETS)[number];

/** One line of a panel: its surface, and the straight line that takes its heights to the panel's own. mm. */
export interface TiedStretch {
  readonly stretch: Stretch;
  /** Place athwart. */
  readonly y: number;
  readonly tie: { readonly level: number; readonly slope: number };
}

/** An affine figure of the unknowns. */
interface Affine {
  readonly a: readonly number[];
  readonly c: number;
}

export interface Figures {
  readonly miss: Affine;
  readonly rise: Affine;
}

/** Each line's miss and rise, in its own datum. */
export function figuresFor(lines: readonly TiedStretch[], target: PanelTarget): readonly Figures[] {
  const width = lines[lines.length - 1].y - lines[0].y;
  return lines.map(({ stretch: { x, z }, y, tie }, i): Figures => {
    const last = x.length - 1;
    if (target === 'straight buttocks') {
      const unit = (k: number) => {
        const a = new Array<number>(2 * lines.length).fill(0);
        a[k] = 1;
        return a;
      };
      return { miss: { a: unit(2 * i), c: 0 }, rise: { a: unit(2 * i + 1), c: 0 } };
    }
    // The plane a + b·x + c·y in the panel's datum, less the line's tie.
    const across = (y - lines[0].y) / width;
    const span = x[last] - x[0];
    const scale = lines[0].stretch.x[lines[0].stretch.x.length - 1];
    return {
      miss: { a: [-1, -x[last] / scale, -across], c: z[last] + tie.level + tie.slope * x[last] },
      rise: { a: [0, -span / scale, 0], c: tie.slope * span },
    };
  });
}

export function programmeOf(
  lines: readonly TiedStretch[],
  figures: readonly Figures[],
  terms: Terms,
): PanelProgramme {
  const { fills, grinds, most } = allowed(terms);
  const deviations: Deviation[] = [];
  const limits: AtMost[] = [];
  const breadths = lines.map((_, i) => breadthOf(lines, i));
  const whole = breadths.reduce((sum, b) => sum + b, 0);
  lines.forEach(({ stretch }, line) => {
    const { x, z, feathered, turn } = stretch;
    const last = x.length - 1;
    const { miss, rise } = figures[line];
    x.forEach((at, i) => {
      const { base, perMiss, perRise } = shapeAt(stretch, i);
      const a = miss.a.map((m, k) => perMiss * m + perRise * rise.a[k]);
      const b = z[i] - base - perMiss * miss.c - perRise * rise.c;
      const length = (x[Math.min(i + 1, last)] - x[Math.max(i - 1, 0)]) / 2;
      const share = ((length / (x[last] - x[0])) * breadths[line]) / whole;
      deviations.push({
        a,
        b,
        above: fills ? share : 0,
        below: grinds ? terms.grindWeight * share : 0,
      });
      if (at > feathered || i === last) return;
      limits.push({ a: a.map((v) => -v), b: most - b });
      if (!fills) limits.push({ a, b });
    });
    const taken = turn * (x[last] - feathered);
    for (const sign of [1, -1]) {
      const a = miss.a.map((m) => sign * m);
      limits.push({ a, b: taken - sign * miss.c });
    }
  });
  return { unknowns: figures[0].miss.a.length, deviations, limits };
}

interface PanelProgramme extends Programme {
  readonly limits: readonly AtMost[];
}

export function fairAthwart(
  lines: readonly TiedStretch[],
  figures: readonly Figures[],
  athwart: number,
): readonly AtMost[] {
  const aft = Math.max(...lines.map(({ stretch: { x } }) => x[0]));
  const fore = Math.min(...lines.map(({ stretch: { x } }) => x[x.length - 1]));
  const heightAt = (line: number, at: number): Affine => {
    const { stretch, tie } = lines[line];
    const { x, z } = stretch;
    const last = x.length - 1;
    const share = (x[last] - at) / (x[last] - x[0]);
    const { miss, rise } = figures[line];
    return {
      a: miss.a.map((m, k) => share * rise.a[k] - m),
      c: z[last] - miss.c + share * rise.c + tie.level + tie.slope * at,
    };
  };
  const limits: AtMost[] = [];
  // What is straight fore and aft stays within a limit between two stations where it does at both.
  for (const at of [aft, fore]) {
    for (let j = 1; j + 1 < lines.length; j++) {
      for (let i = 0; i < j; i++) {
        for (let k = j + 1; k < lines.length; k++) {
          const t = (lines[j].y - lines[i].y) / (lines[k].y - lines[i].y);
          const [p, q, r] = [i, j, k].map((line) => heightAt(line, at));
          const a = q.a.map((v, u) => v - (1 - t) * p.a[u] - t * r.a[u]);
          const c = q.c - (1 - t) * p.c - t * r.c;
          limits.push({ a, b: athwart - c }, { a: a.map((v) => -v), b: athwart + c });
        }
      }
    }
  }
  return limits;
}

export function valued({ miss, rise }: Figures, at: readonly number[]): TargetFigures {
  const value = ({ a, c }: Affine) => a.reduce((sum, v, k) => sum + v * at[k], c);
  return { miss: value(miss), rise: value(rise) };
}

function breadthOf(lines: readonly TiedStretch[], i: number): number {
  const inner = i > 0 ? lines[i].y - lines[i - 1].y : 0;
  const outer = i + 1 < lines.length ? lines[i + 1].y - lines[i].y : 0;
  return (inner + outer) / 2;
}
