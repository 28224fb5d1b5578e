import { scaleLinear, tickStep, ticks } from 'd3';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { UNITS } from '../../src/survey/units.ts';
import { rounded, textSize, type DrawingSize } from './drawingSize.ts';
import { hatchPath, type Box } from './hatch.ts';
import { gridContours, type Ring } from './surfaceContours.ts';
import { blanksOf, extremesOf, labelOf, middleOf, type Drawn } from './surfaceMarks.ts';
import type { PanelSurface } from '../../src/survey/panels/surfaceFrom.ts';

/** From where the bottom is looked at, bow up: lying under it port is on the right, from above on the left. */
export type SeenFrom = 'below' | 'above';

export interface SurfaceBand {
  readonly is: 'proud' | 'hollow';
  /** Outline that its hatching is cut to. */
  readonly path: string;
  readonly hatch: string;
}

export interface SurfaceText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

export interface SurfaceView {
  readonly width: number;
  readonly height: number;
  readonly em: number;
  readonly plot: Box;
  readonly title: string;
  readonly summary: string;
  /** Where the keel is drawn. */
  readonly keel: number;
  readonly sides: readonly SurfaceText[];
  readonly stations: readonly { readonly at: number; readonly label: string }[];
  readonly lines: readonly { readonly at: number; readonly label: string; readonly path: string }[];
  /** One outline a grid. */
  readonly outlines: readonly string[];
  /** Places whose height differs from nothing by more than its 95 % interval. */
  readonly told: string;
  readonly bands: readonly SurfaceBand[];
  readonly labels: readonly SurfaceText[];
  readonly extremes: readonly SurfaceText[];
  readonly blanks: readonly Box[];
  /** Where to lay the straightedge next, with its word. */
  readonly next: readonly (SurfaceText & { readonly path: string })[];
  readonly step: string;
  /** Along is not drawn to the scale of across. */
  readonly stretched: boolean;
}

/** As much of a panel as its picture needs. */
export type SurfaceShown = Pick<PanelSurface, 'side' | 'lines' | 'grids' | 'datum' | 'next'> & {
  readonly words: { readonly word: string };
};

/** What heights are called: of a bottom, and of what changed of it. */
export interface SurfaceNames {
  readonly title: string;
  readonly proud: string;
  readonly hollow: string;
}
const OF_A_BOTTOM: SurfaceNames = { title: 'The bottom', proud: 'proud', hollow: 'hollow' };
export const OF_A_CHANGE: SurfaceNames = {
  title: 'What changed',
  proud: 'came out',
  hollow: 'went in',
};

const GOLDEN = 0.382;
const TALLEST = 1.35;
const FLATTEST = 0.6;

/** Panels that lie beside one another, in one picture. Throws RangeError where there is no grid at all. */
export function surfaceView(
  panels: readonly SurfaceShown[],
  {
    size,
    from,
    unit,
    names = OF_A_BOTTOM,
  }: {
    readonly size: Pick<DrawingSize, 'width' | 'unit' | 'text'>;
    readonly from: SeenFrom;
    readonly unit: WorkUnit;
    readonly names?: SurfaceNames;
  },
): SurfaceView {
  const grids = panels.flatMap(({ side, grids: own }) => own.map((grid) => ({ side, grid })));
  if (grids.length === 0) throw new RangeError('no grids: one at least expected');
  const em = textSize(size);
  const reach =
    1.06 *
    Math.max(...grids.flatMap(({ grid: { y } }) => [Math.abs(y[0]), Math.abs(y[y.length - 1])]));
  const aft = Math.min(0, ...grids.map(({ grid: { x } }) => x[0]));
  const fore = Math.max(...grids.map(({ grid: { x } }) => x[x.length - 1]));
  const width = rounded(size.width - 4.4 * em);
  const natural = (width * (fore - aft)) / (2 * reach);
  const height = rounded(Math.min(TALLEST * width, Math.max(FLATTEST * width, natural)));
  const plot: Box = { x: rounded(3.6 * em), y: rounded(5.4 * em), width, height };
  const across = scaleLinear([-reach, reach], [plot.x, plot.x + width]);
  const up = scaleLinear([aft, fore], [plot.y + height, plot.y]);
  const placeOf = (side: PanelSurface['side'], offset: number) =>
    rounded(across(offset * signOf(side, from)));

  const highest = Math.max(...grids.map(({ grid }) => extremesOf(grid).size));
  const one = UNITS[unit].mm;
  const usual = Math.min(...grids.map(({ grid: { u } }) => middleOf(u)));
  // Finer than what heights are known to would draw noise.
  const step = Math.max(tickStep(0, highest / one, 4), tickStep(0, (8 * usual) / one, 4));
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const figure = (mm: number) => Math.abs(mm / one).toFixed(decimals);

  const outlines: string[] = [];
  const told: string[] = [];
  const bands: SurfaceBand[] = [];
  const labels: SurfaceText[] = [];
  const extremes: SurfaceText[] = [];
  const blanks: Box[] = [];
  const free = (text: SurfaceText, taken: readonly SurfaceText[]) =>
    taken.every(({ x, y }) => Math.abs(x - text.x) > 3.4 * em || Math.abs(y - text.y) > 1.3 * em);

  for (const { side, grid } of grids) {
    const point = ([x, y]: readonly [number, number]) =>
      [placeOf(side, y), rounded(up(x))] as const;
    const ends = [grid.y[0], grid.y[grid.y.length - 1]].map((y) => placeOf(side, y));
    const [high, low] = [grid.x[grid.x.length - 1], grid.x[0]].map((x) => rounded(up(x)));
    outlines.push(`M${ends[0]},${high}H${ends[1]}V${low}H${ends[0]}Z`);
    const places = Math.abs(ends[1] - ends[0]) > 6 * em;
    for (const { kind, x, y, z, u } of extremesOf(grid).found) {
      if (Math.abs(z) < 2 * u || !places) continue;
      const [at, height] = point([x, y]);
      const edge = 3.4 * em;
      const inside = Math.min(Math.max(at, plot.x + edge), plot.x + width - edge);
      const down = Math.min(Math.max(height, plot.y + em), plot.y + plot.height - 0.9 * em);
      const text = {
        x: rounded(inside),
        y: rounded(down),
        text: `${names[kind]} ${figure(z)} ${unit}`,
      };
      if (free(text, extremes)) extremes.push(text);
    }
    told.push(
      ...gridContours(grid, (i) => Math.abs(grid.z[i]) - 2 * grid.u[i], 0).map((ring) =>
        drawn(ring, point),
      ),
    );
    for (const is of ['proud', 'hollow'] as const) {
      const sign = is === 'proud' ? 1 : -1;
      for (let k = 1; k * step * one < highest; k++) {
        const level = k * step * one;
        const rings = gridContours(grid, (i) => sign * grid.z[i], level);
        if (rings.length === 0) continue;
        const gap = 1.1 * em;
        const shifted = { ...plot, x: rounded(plot.x - gap * between(k)), width: width + gap };
        bands.push({
          is,
          path: rings.map((ring) => drawn(ring, point)).join(''),
          hatch: hatchPath(shifted, gap, is === 'proud' ? 'rising' : 'falling'),
        });
        if (!places) continue;
        const text = labelOf(rings, grid, point, `${is === 'proud' ? '+' : '−'}${figure(level)}`);
        if (text !== undefined && free(text, [...labels, ...extremes])) labels.push(text);
      }
    }
    blanks.push(...blanksOf(grid, point));
  }
  const lines = panels.flatMap(({ side, lines: own }) =>
    own.map(({ place }) => {
      const at = placeOf(side, place);
      const offset = Math.abs(place);
      return {
        at,
        label:
          unit === 'mm' ? String(Math.round(offset)) : String(Number((offset / one).toFixed(1))),
        path: `M${at},${plot.y}V${rounded(plot.y + height)}`,
      };
    }),
  );
  const middle = (side: PanelSurface['side']) => placeOf(side, reach / 2);
  return {
    width: size.width,
    height: rounded(plot.y + height + 3 * em),
    em,
    plot,
    title: `${names.title} seen from ${from}`,
    summary: summaryOf(panels, from),
    keel: rounded(across(0)),
    sides: (['port', 'starboard'] as const).map((side) => ({
      x: middle(side),
      y: rounded(2.9 * em),
      text: side.toUpperCase(),
    })),
    stations: ticks(aft / one, fore / one, height / em > 30 ? 10 : 6).map((value) => ({
      at: rounded(up(value * one)),
      label: String(value),
    })),
    lines: lines.filter(
      ({ at }, i) => !lines.slice(0, i).some((other) => Math.abs(other.at - at) < 2 * em),
    ),
    outlines,
    told: told.join(''),
    bands,
    labels,
    extremes,
    blanks,
    next: panels.flatMap(({ side, lines: own, next }) => {
      if (next === undefined) return [];
      const offsets = own.map(({ place }) => place);
      const [x1, x2] = [Math.min(...offsets), Math.max(...offsets)].map((y) => placeOf(side, y));
      const [y1, y2] = [next.inner, next.outer].map((x) => rounded(up(x)));
      const y = Math.max((y1 + y2) / 2, plot.y + em);
      return [{ path: `M${x1},${y1}L${x2},${y2}`, x: rounded((x1 + x2) / 2), y, text: 'LAY NEXT' }];
    }),
    step: `${step.toFixed(decimals)} ${unit}`,
    stretched: Math.abs(natural - height) > 0.02 * height,
  };
}

/** On which side of the keel a side is drawn: 1 towards the right of the picture. Of both sides starboard counts up. */
function signOf(side: PanelSurface['side'], from: SeenFrom): 1 | -1 {
  return (side === 'port') === (from === 'below') ? 1 : -1;
}

/** Strokes of every further level fall between those before: twice as far off looks twice as dark. */
function between(level: number): number {
  return level * GOLDEN - Math.floor(level * GOLDEN);
}

function drawn(ring: Ring, point: Drawn): string {
  return `M${ring.map((place) => point(place).join(',')).join('L')}Z`;
}

function summaryOf(panels: readonly SurfaceShown[], from: SeenFrom): string {
  const right = from === 'below' ? 'port' : 'starboard';
  const said = panels.map(
    ({ words, side, datum }) =>
      `${side === 'both' ? 'both sides' : side}: ${datum === 'each line' ? 'line by line, heights between lines are not tied' : words.word.toLowerCase()}`,
  );
  return `Bow up, transom at the foot, ${right} on the right. ${said.join('; ')}.`;
}
