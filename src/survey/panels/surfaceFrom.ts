import type { PanelMap } from '../../fit/surface/panelMap.ts';
import { straightened } from '../../fit/straightened.ts';
import type { SurveyAssessment } from '../assessment.ts';
import { showAngle, showMeasured, showStretch, showTolerance, type WorkUnit } from '../figures.ts';
import { assessPanels, type PanelAssessment } from './assessPanels.ts';
import { closureRows, type ClosureRow } from './closureRows.ts';
import { nextPlacement } from './nextPlacement.ts';
import type { AcrossSide } from '../survey.ts';
import { placeAthwart } from './placeAthwart.ts';
import { panelWords, sidesSentence, type PanelWords } from './panelWords.ts';
import { listed } from '../sentence.ts';
import { smallFigure } from '../smallFigure.ts';

/** Heights on a grid, rows athwart as the lines' places are and columns from aft forward, as plain data that goes between threads. Lengths in mm. */
export interface SurfaceGrid {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly z: ArrayLike<number>;
  readonly u: ArrayLike<number>;
  readonly blank: ArrayLike<number>;
}

export interface PanelSurface {
  readonly side: AcrossSide;
  /** `place` athwart: from the keel outwards; right across it from the keel to starboard, to port below 0. */
  readonly lines: readonly { readonly name: string; readonly place: number }[];
  readonly words: PanelWords;
  /** Whether a twist, a hollow or a hump is proven. */
  readonly proven: boolean;
  /** What heights are told off; `each line`: nothing ties them, every line has a grid of its own. */
  readonly datum: PanelMap['datum'] | 'each line';
  readonly grids: readonly SurfaceGrid[];
  readonly areas: readonly AreaRow[];
  readonly facts: readonly { readonly what: string; readonly says: string }[];
  /** How every placement fits in with the others; empty where nothing is tied. */
  readonly closure: readonly ClosureRow[];
  /** Where a straightedge across would help most: its station on the first and on the last line. */
  readonly next?: { readonly inner: number; readonly outer: number };
}

export interface AreaRow {
  readonly kind: string;
  readonly size: string;
  readonly stretch: string;
  readonly lines: string;
  readonly extent: string;
  readonly proof: string;
}

export interface SurfaceFound {
  readonly panels: readonly PanelSurface[];
  /** Port against starboard; empty where there is nothing to compare. */
  readonly sides: string;
}

/** Everything that the page of the surface shows, in words and grids. */
export function surfaceFrom(all: SurveyAssessment, unit: WorkUnit): SurfaceFound {
  const found = assessPanels(all);
  return {
    panels: found.panels.map((panel) => panelSurface(panel, all, unit)),
    sides: sidesSentence(found, unit),
  };
}

function panelSurface(panel: PanelAssessment, all: SurveyAssessment, unit: WorkUnit): PanelSurface {
  const { side, outcome } = panel;
  const lines = panel.lines.map((line) => ({ name: line.name, place: placeAthwart(side, line) }));
  const words = panelWords(panel, all, unit);
  if (!outcome.ok) {
    const grids = panel.lines.flatMap((line) => stripsOf(line.id, panel, all));
    return {
      side,
      lines,
      words,
      proven: false,
      datum: 'each line',
      grids,
      areas: [],
      facts: [],
      closure: [],
    };
  }
  const { x, y, z, u, blank, datum, range } = outcome.map();
  const next = nextPlacement(outcome)?.worth;
  const areas = outcome.areas.areas.map((area): AreaRow => ({
    kind: area.kind,
    size: showMeasured(area.size, area.u, unit),
    stretch: showStretch(area.x[0], area.x[1], unit),
    lines: listed(area.lines.map((i) => lines[i].name)),
    extent: showExtent(area.extent, unit),
    proof: area.proven ? 'proven' : 'not proven',
  }));
  return {
    side,
    lines,
    words,
    proven: outcome.twist?.verdict === 'twisted' || outcome.areas.areas.some((area) => area.proven),
    datum,
    grids: [{ x, y, z, u, blank }],
    areas,
    closure: closureRows(panel, outcome, unit),
    ...(next && { next: { inner: next.inner, outer: next.outer } }),
    facts: [
      {
        what: datum === 'plane' ? 'Departure from flat' : 'Departure from flat, a twist left out',
        says: showMeasured(range.size, range.u, unit),
      },
      ...knownFact({ u, blank }, unit),
      ...twistFact(outcome.twist, all, unit),
      ...outcome.neighbours.map(({ inner, outer, size, u: own, verdict }) => ({
        what: `${lines[inner].name} and ${lines[outer].name}`,
        says: `${verdict === 'undecided' ? 'not proven alike' : verdict}; shapes differ by ${showMeasured(Math.abs(size), own, unit)} at most`,
      })),
    ],
  };
}

/** How well heights are known where something was read: root mean square, and at worst. */
function knownFact({ u, blank }: Pick<SurfaceGrid, 'u' | 'blank'>, unit: WorkUnit) {
  const told = Array.from(u).filter((_, i) => blank[i] === 0);
  if (told.length === 0) return [];
  const mean = Math.sqrt(told.reduce((sum, v) => sum + v * v, 0) / told.length);
  const worst = Math.max(...told);
  return [
    {
      what: 'Heights are known to',
      says: `± ${smallFigure(2 * mean, unit)} on average, ± ${smallFigure(2 * worst, unit)} at worst (about 95 %)`,
    },
  ];
}

function twistFact(
  twist: (PanelAssessment['outcome'] & { readonly ok: true })['twist'],
  { tolerance }: SurveyAssessment,
  unit: WorkUnit,
) {
  if (twist === undefined) return [{ what: 'Twist', says: 'not told: no diagonal was laid' }];
  const verdict = twist.verdict === 'undecided' ? 'not proven either way' : twist.verdict;
  const corner = showMeasured(Math.abs(twist.corner), twist.cornerU, unit);
  const angle = showAngle(Math.abs(twist.angle), twist.u);
  return [
    {
      what: 'Twist',
      says: `${verdict}: fourth corner off by ${corner}, ${angle}; ${showTolerance(tolerance.gap, unit)} allowed`,
    },
  ];
}

/** A line that nothing ties to its neighbours: off its own straight line, as a strip. */
function stripsOf(
  id: string,
  { lines }: PanelAssessment,
  { lines: judged }: SurveyAssessment,
): readonly SurfaceGrid[] {
  const offsets = lines.map(({ offset }) => offset);
  const gaps = offsets.slice(1).map((offset, i) => offset - offsets[i]);
  const half = Math.min(...gaps.filter((gap) => gap > 0)) * 0.32;
  return judged.flatMap(({ line, outcome }) => {
    if (line.id !== id || !outcome.ok || !Number.isFinite(half)) return [];
    const { profile } = outcome.judgement;
    if (profile.length < 2) return [];
    const x = profile.map((point) => point.x);
    const level = straightened(
      profile.map((point) => point.z),
      x,
    );
    const u = profile.map((point) => point.u);
    return [
      {
        x,
        y: [line.offset - half, line.offset + half],
        z: [...level, ...level],
        u: [...u, ...u],
        blank: [...x, ...x].map(() => 0),
      },
    ];
  });
}

const TO = { mm: { size: 1e6, unit: 'm²' }, in: { size: 304.8 ** 2, unit: 'ft²' } } as const;

function showExtent(squareMm: number, unit: WorkUnit): string {
  const { size, unit: name } = TO[unit];
  const value = squareMm / size;
  return value < 0.01 ? `under 0.01 ${name}` : `${Number(value.toPrecision(2))} ${name}`;
}
