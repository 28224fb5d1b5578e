import { comparePanels, neighboursOf, type Agreement } from '../../fit/surface/agreement.ts';
import { areasOf, type Areas } from '../../fit/surface/areas.ts';
import { fitPanel, type Panel, type PanelRefusal } from '../../fit/surface/fitPanel.ts';
import { misclosureOf, type Misclosure } from '../../fit/surface/misclosure.ts';
import { candidatesAcross, worthAcross, type AcrossWorth } from '../../fit/surface/nextAcross.ts';
import { responseOfPanel } from '../../fit/surface/panelDraws.ts';
import { panelMap, type PanelMap } from '../../fit/surface/panelMap.ts';
import type { PanelPlacement } from '../../fit/surface/panelReadings.ts';
import { twistOf, twistRow, type Twist } from '../../fit/surface/twist.ts';
import type { SystematicMode } from '../../fit/systematic.ts';
import type { AssessOptions } from '../assess.ts';
import type { SurveyAssessment } from '../assessment.ts';
import { edgeUses, type EdgeMode } from '../edge/edgeUse.ts';
import { roughnessFloor } from '../fitReadings.ts';
import type { Line, Placement, PlacementAcross } from '../survey.ts';
import { readingUncertainty } from '../usable.ts';
import { columnUncertainties, usableColumns } from '../usableColumns.ts';
import { acrossColumns } from './acrossColumns.ts';
import { panelsOf, type PanelLines } from './panelsOf.ts';

/** What is said of one panel as a surface. Lengths in mm, angles in degrees. */
export interface PanelAssessment {
  readonly side: PanelLines['side'];
  /** From the keel outwards; the fit's lines by index. */
  readonly lines: readonly Line[];
  readonly across: readonly PlacementAcross[];
  readonly outcome: PanelJudged | PanelRefusal;
}

export interface PanelJudged {
  readonly ok: true;
  readonly panel: Panel;
  /** Placements in the order of the fit's. */
  readonly placements: readonly (Placement | PlacementAcross)[];
  readonly systematic: readonly SystematicMode[];
  /** Stations from which to which it is judged. */
  readonly judged: readonly [number, number];
  /** Absent where no diagonal was laid. */
  readonly twist?: Twist;
  readonly areas: Areas;
  readonly neighbours: ReturnType<typeof neighboursOf>;
  readonly misclosure: Misclosure;
  /** Worked out when asked for: grid for a map; what one more placement across would be worth for
   *  heights all over the panel, or for its fourth corner. */
  readonly map: (options?: { readonly columns?: number; readonly between?: number }) => PanelMap;
  readonly next: (wanted: Wanted) => readonly AcrossWorth[];
}

export type Wanted = 'heights' | 'corner';

export interface PanelsAssessment {
  readonly panels: readonly PanelAssessment[];
  /** Port against starboard on lines of the same offset, where both sides have a panel of two such lines. */
  readonly sides?: Agreement & { readonly lines: readonly (readonly [Line, Line])[] };
}

/** Lines of both sides within this of one another's offset answer to each other, mm. */
const SAME_OFFSET = 10;

/** Each side of a survey as one surface, where straightedges were laid across. `all`: the survey's assessment;
 *  `options`: those it was made with. Panels that are not tied say so and have nothing but their lines. */
export function assessPanels(all: SurveyAssessment, options: AssessOptions = {}): PanelsAssessment {
  const edgeOf = edgeUses(all.survey, options);
  const panels = panelsOf(all.survey).map((lines) => assessPanel(lines, all, options, edgeOf));
  const sides = sidesOf(panels, all.tolerance.gap);
  return { panels, ...(sides && { sides }) };
}

function assessPanel(
  { side, lines, across }: PanelLines,
  all: SurveyAssessment,
  { resolution, limit: asked }: AssessOptions,
  edgeOf: ReturnType<typeof edgeUses>,
): PanelAssessment {
  const { survey, tolerance, repeatability, limit } = all;
  const shown = { side, lines: lines.map(({ line }) => line), across };
  if (across.length === 0) return { ...shown, outcome: { ok: false, reason: 'not crossed' } };
  const laid: (Laid & { readonly of: Placement | PlacementAcross })[] = [];
  lines.forEach(({ placements }, i) => {
    for (const placement of placements) {
      const use = edgeOf(placement);
      const columns = usableColumns(placement, survey.workUnit, resolution, use.errorAt);
      if (columns.x.length === 0) continue;
      laid.push({
        of: placement,
        line: Array.from(columns.x, () => i),
        x: columns.x,
        gap: columns.gap,
        u: columnUncertainties(columns, repeatability),
        along: columns.x,
        modes: use.modes,
      });
    }
  });
  for (const placement of across) {
    const { use, ...columns } = acrossColumns(
      placement,
      shown.lines,
      survey.workUnit,
      resolution,
      edgeOf,
    );
    if (columns.x.length === 0) continue;
    laid.push({
      of: placement,
      line: columns.line.map((id) => shown.lines.findIndex((line) => line.id === id)),
      x: columns.x,
      gap: columns.gap,
      u: columns.readings.map((reading) => readingUncertainty(reading, repeatability)),
      along: columns.along,
      modes: use.modes,
    });
  }
  const panel = fitPanel(
    shown.lines.map(({ offset }) => offset),
    laid,
    roughnessFloor(tolerance.gap),
    asked ?? limit.mm,
  );
  if (!panel.ok) return { ...shown, outcome: panel };
  const systematic = systematicOfPanel(panel, laid);
  const [from, end] = panel.space.domain;
  const to = Math.min(end, asked ?? limit.mm);
  const judged = [from, to > from ? to : end] as const;
  const question = { tolerance: tolerance.gap, over: tolerance.over };
  const twist = twistOf(panel, judged, question, systematic);
  const u = Math.max(...laid.flatMap((each) => Array.from(each.u)));
  return {
    ...shown,
    outcome: {
      ok: true,
      panel,
      placements: laid.map(({ of }) => of),
      systematic,
      judged,
      ...(twist && { twist }),
      areas: areasOf(panel, judged, question, systematic),
      neighbours: neighboursOf(panel, judged, tolerance.gap),
      misclosure: misclosureOf(panel),
      map: (grid) => panelMap(panel, judged, { ...grid, systematic }),
      next: (wanted) => {
        const length = Math.min(tolerance.over, judged[1] - judged[0]);
        const corner = twistRow(panel, judged).map((w) => w * length);
        const candidates = candidatesAcross(panel, judged);
        return worthAcross(panel, candidates, u, wanted === 'corner' ? [corner] : undefined);
      },
    },
  };
}

interface Laid extends PanelPlacement {
  /** Places along the straightedge. */
  readonly along: ArrayLike<number>;
  readonly modes: readonly EdgeMode[];
}

/** One and the same edge is out alike wherever it was laid, along a line or across. */
function systematicOfPanel(panel: Panel, laid: readonly Laid[]): readonly SystematicMode[] {
  const byKey = new Map(laid.flatMap(({ modes }) => modes).map((mode) => [mode.key, mode]));
  return [...byKey].map(([key, { name, distribution }]) => {
    const own = laid.map(({ modes }) => modes.find((mode) => mode.key === key));
    const shape = responseOfPanel(panel, (p, i) => {
      const mode = own[p];
      return mode === undefined ? 0 : mode.at(laid[p].along[i]);
    });
    return { name, shape, distribution };
  });
}

function sidesOf(panels: readonly PanelAssessment[], tolerance: number): PanelsAssessment['sides'] {
  const [port, starboard] = (['port', 'starboard'] as const).map((side) =>
    panels.find((panel) => panel.side === side && panel.outcome.ok),
  );
  if (port?.outcome.ok !== true || starboard?.outcome.ok !== true) return undefined;
  const pairs = port.lines.flatMap((line, i) => {
    const j = starboard.lines.findIndex(
      ({ offset }) => Math.abs(offset - line.offset) <= SAME_OFFSET,
    );
    return j < 0 ? [] : [[i, j] as const];
  });
  const from = Math.max(port.outcome.judged[0], starboard.outcome.judged[0]);
  const to = Math.min(port.outcome.judged[1], starboard.outcome.judged[1]);
  if (pairs.length < 2 || !(to > from)) return undefined;
  const found = comparePanels(
    port.outcome.panel,
    starboard.outcome.panel,
    pairs,
    [from, to],
    tolerance,
    {
      firstSystematic: port.outcome.systematic,
      secondSystematic: starboard.outcome.systematic,
    },
  );
  const lines = pairs.map(([i, j]) => [port.lines[i], starboard.lines[j]] as const);
  return { ...found, lines };
}
