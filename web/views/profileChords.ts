import { area } from 'd3';
import type { Deepest, Judgement } from '../../src/fit/judge.ts';
import { showMeasured, type WorkUnit } from '../../src/survey/figures.ts';
import { rounded } from './drawingSize.ts';
import type { Box } from './hatch.ts';
import { surfaceAt } from './profileTable.ts';

/** A straight edge as it would lie to show a departure. */
export interface ShownChord {
  readonly is: 'hollow' | 'hump';
  /** Towards what counts: −1 hollow, 1 proud. */
  readonly side: -1 | 1;
  readonly ends: readonly [
    { readonly x: number; readonly z: number },
    { readonly x: number; readonly z: number },
  ];
  readonly deepest: Deepest;
}

/** The same in the drawing's own unit. */
export interface DrawnChord {
  readonly is: 'hollow' | 'hump';
  readonly path: string;
  /** What the tolerance allows, as an area beside the chord. */
  readonly allowed: string;
  /** Between the chord and the surface. */
  readonly departure: string;
  /** From the chord to the surface where it departs most, with its size. */
  readonly measure: {
    readonly x: number;
    readonly y: readonly [chord: number, surface: number];
    readonly label: string;
    readonly labelX: number;
    readonly labelY: number;
    readonly anchor: 'start' | 'middle' | 'end';
  };
}

/** The chords to draw: of what is proven, hollow and hump; where nothing is, of the larger. */
export function shownChords(judgement: Judgement): readonly ShownChord[] {
  const { verdict, hollow, hump } = judgement;
  const proven = { hollow: verdict.includes('hook'), hump: verdict.includes('rocker') };
  const neither = !proven.hollow && !proven.hump;
  const larger = hollow.size >= hump.size ? 'hollow' : 'hump';
  return (['hollow', 'hump'] as const).flatMap((is) => {
    if (!proven[is] && !(neither && larger === is)) return [];
    const deepest = judgement[is];
    const [a, b] = [deepest.from, deepest.to].map((x) => surfaceAt(judgement.profile, x));
    if (!a || !b || deepest.to <= deepest.from) return [];
    const ends = [
      { x: deepest.from, z: a.z },
      { x: deepest.to, z: b.z },
    ] as const;
    return [{ is, side: is === 'hollow' ? -1 : 1, ends, deepest }];
  });
}

/** Height of a chord at a place along it. */
function chordAt({ ends: [a, b] }: ShownChord, x: number): number {
  return a.z + ((x - a.x) / (b.x - a.x)) * (b.z - a.z);
}

interface Paper {
  readonly x: (mm: number) => number;
  readonly y: (z: number) => number;
  readonly plot: Box;
  readonly em: number;
  readonly tolerance: number;
  readonly unit: WorkUnit;
}

export function drawnChords(
  judgement: Judgement,
  { x, y, plot, em, tolerance, unit }: Paper,
): readonly DrawnChord[] {
  return shownChords(judgement).map((chord) => {
    const { ends, side, deepest, is } = chord;
    const [a, b] = ends;
    const shift = side * tolerance;
    const farther = side < 0 ? Math.min : Math.max;
    const under = judgement.profile.filter((p) => p.x >= a.x && p.x <= b.x);
    const departure = area<(typeof under)[number]>(
      (p) => x(p.x),
      (p) => y(chordAt(chord, p.x)),
      (p) => y(farther(p.z, chordAt(chord, p.x))),
    )(under);
    const straight = y(chordAt(chord, deepest.at));
    const surface = surfaceAt(judgement.profile, deepest.at);
    const label = showMeasured(deepest.size, deepest.u, unit);
    const at = Math.min(Math.max(x(deepest.at), plot.x), plot.x + plot.width);
    const reach = label.length * 0.3 * em;
    const chordPath = `M${x(a.x)},${y(a.z)}L${x(b.x)},${y(b.z)}`;
    return {
      is,
      path: chordPath,
      allowed: `${chordPath}L${x(b.x)},${y(b.z + shift)}L${x(a.x)},${y(a.z + shift)}Z`,
      departure: departure ?? '',
      measure: {
        x: x(deepest.at),
        y: [straight, surface ? y(surface.z) : straight],
        label,
        labelX: rounded(at),
        // Beyond the chord, where no reading lies: under a hollow, over a hump.
        labelY: rounded(straight + (side < 0 ? 1.35 : -0.75) * em),
        anchor: at - reach < plot.x ? 'start' : at + reach > plot.x + plot.width ? 'end' : 'middle',
      },
    };
  });
}
