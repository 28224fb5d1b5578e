import { area, line as lineShape } from 'd3';
import type { ProfilePoint } from '../../src/fit/judge.ts';
import type { SectionChange } from '../../src/seasons/comparison.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { rounded, type DrawingSize } from './drawingSize.ts';
import { hatchPath, type Box } from './hatch.ts';
import { heightTicks, stationTicks, type Tick } from './profileTicks.ts';
import { seasonsPlot, spanOf, type SeasonsScale } from './seasonsScale.ts';

/** One survey's profile of a line, as it goes into a picture. */
export interface SeasonCurve {
  readonly key: string;
  /** "2026-04-16". */
  readonly label: string;
  readonly points: readonly ProfilePoint[];
  /** Before the last repair of the line: an old baseline, drawn fainter. */
  readonly former: boolean;
}

export interface DrawnCurve {
  readonly key: string;
  readonly label: string;
  readonly path: string;
  /** What lies within 95 %; empty where it is not shown. */
  readonly band: string;
  /** Strokes and gaps in px, so that surveys differ without colour; empty for the newest. */
  readonly dash: string;
  readonly newest: boolean;
  readonly former: boolean;
  /** Where the label stands, and the thread that leads to it from the curve's fore end. */
  readonly at: readonly [x: number, y: number];
  readonly thread: string;
}

export interface DrawnChange extends Box {
  readonly key: string;
  readonly outcome: SectionChange['outcome'];
  readonly label: string;
  readonly middle: readonly [x: number, y: number];
  readonly hatch: string;
}

/** A line over the seasons: transom left, bow right, the water side down, for both sides alike. */
export interface SeasonsDrawing {
  readonly width: number;
  readonly height: number;
  readonly em: number;
  readonly plot: Box;
  readonly unit: WorkUnit;
  readonly times: string;
  readonly stations: readonly Tick[];
  readonly heights: readonly Tick[];
  readonly level: number;
  readonly transom: number;
  /** The oldest first. */
  readonly curves: readonly DrawnCurve[];
  readonly sections: readonly DrawnChange[];
}

/** Strokes and gaps, in pens: what comes before the newest survey, the nearest first. */
const DASHES = [
  [7, 4],
  [2, 3],
  [12, 3, 2, 3],
  [4, 2],
  [1, 5],
  [15, 5],
  [8, 3, 2, 3, 2, 3],
  [5, 7],
  [3, 3, 10, 3],
] as const;

export function seasonsDrawing(
  curves: readonly SeasonCurve[],
  options: {
    readonly size: DrawingSize;
    readonly scale: SeasonsScale;
    readonly unit: WorkUnit;
    /** Whether each curve's 95 % are shown: readable with two, not with ten. */
    readonly bands?: boolean;
    readonly sections?: readonly SectionChange[];
  },
): SeasonsDrawing {
  const { size, scale, unit, bands = false, sections = [] } = options;
  const { em, ...plot } = seasonsPlot(size);
  const along = plot.width / (scale.to - scale.from);
  const across = plot.height / 2 / scale.half;
  const [low, high] = spanOf(curves.flatMap(({ points }) => points));
  const centre = (low + high) / 2;
  const x = (mm: number) => rounded(plot.x + (mm - scale.from) * along);
  // Proud is positive and towards the water, which is down.
  const y = (z: number) => rounded(plot.y + plot.height / 2 + (z - centre) * across);
  const pen = em / 13;
  const ends = labelHeights(
    curves.map(({ points }) => y(points[points.length - 1].z)),
    { from: plot.y - 0.5 * em, to: plot.y + plot.height + 0.5 * em, apart: 1.12 * em },
  );
  const edge = plot.x + plot.width;
  return {
    width: size.width,
    height: size.height,
    em,
    plot,
    unit,
    times: `×${Number((across / along).toPrecision(2))}`,
    stations: stationTicks(scale.from, scale.to, (3 * em) / along, unit).map((tick) => ({
      ...tick,
      at: x(tick.at),
    })),
    heights: heightTicks(
      centre - 0.97 * scale.half,
      centre + 0.97 * scale.half,
      (1.7 * em) / across,
      unit,
    ).map((tick) => ({ ...tick, at: y(tick.at) })),
    level: y(0),
    transom: x(0),
    curves: curves.map(({ key, label, points, former }, i) => {
      const age = curves.length - 1 - i;
      const last = points[points.length - 1];
      return {
        key,
        label,
        former,
        newest: age === 0,
        path: lineShape<ProfilePoint>(
          (p) => x(p.x),
          (p) => y(p.z),
        )(points) as string,
        band: bands
          ? (area<ProfilePoint>(
              (p) => x(p.x),
              (p) => y(p.z - 2 * p.u),
              (p) => y(p.z + 2 * p.u),
            )(points) as string)
          : '',
        dash:
          age === 0
            ? ''
            : DASHES[(age - 1) % DASHES.length].map((part) => rounded(part * pen)).join(' '),
        at: [rounded(edge + 1.1 * em), rounded(ends[i] + 0.33 * em)],
        thread: `M${x(last.x)},${y(last.z)}L${rounded(edge + 0.9 * em)},${rounded(ends[i])}`,
      };
    }),
    sections: sections.map((section) => drawnChange(section)),
  };

  function drawnChange({ from, to, outcome, way }: SectionChange): DrawnChange {
    const box = {
      x: x(from),
      y: rounded(plot.y + plot.height + 0.25 * em),
      width: rounded(x(to) - x(from)),
      height: rounded(1.3 * em),
    };
    const inward = way === 'hollow deeper' || way === 'hump lower';
    const roomy = box.width >= (outcome.length + 1) * 0.6 * em;
    return {
      ...box,
      key: `${from}-${to}`,
      outcome,
      label: roomy ? outcome : LETTERS[outcome],
      middle: [rounded(box.x + box.width / 2), rounded(box.y + box.height / 2)],
      hatch: outcome === 'moved' ? hatchPath(box, 0.55 * em, inward ? 'rising' : 'falling') : '',
    };
  }
}

const LETTERS = { moved: 'M', 'not moved': 'N', 'cannot tell': '?' } as const;

/** Heights of labels beside the ends of their curves, no nearer to one another than `apart`, in the same order. */
export function labelHeights(
  ends: readonly number[],
  { from, to, apart }: { readonly from: number; readonly to: number; readonly apart: number },
): readonly number[] {
  const order = ends.map((_, i) => i).sort((a, b) => ends[a] - ends[b] || a - b);
  const step = Math.min(apart, (to - from) / Math.max(1, ends.length - 1));
  const placed: number[] = [];
  order.forEach((at, rank) => {
    const above = rank === 0 ? from : placed[order[rank - 1]] + step;
    placed[at] = Math.max(ends[at], above);
  });
  [...order].reverse().forEach((at, back) => {
    placed[at] = Math.min(placed[at], to - back * step);
  });
  return placed;
}
