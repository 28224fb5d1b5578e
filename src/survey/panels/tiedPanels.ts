import { fitPanel, type Panel, type PanelRefusal } from '../../fit/surface/fitPanel.ts';
import { responseOfPanel } from '../../fit/surface/panelDraws.ts';
import type { PanelPlacement } from '../../fit/surface/panelReadings.ts';
import type { SystematicMode } from '../../fit/systematic.ts';
import type { AssessOptions } from '../assess.ts';
import type { SurveyAssessment } from '../assessment.ts';
import { edgeUses, type EdgeMode } from '../edge/edgeUse.ts';
import { roughnessFloor } from '../fitReadings.ts';
import type { Line, Placement, PlacementAcross } from '../survey.ts';
import { readingUncertainty } from '../usable.ts';
import { columnUncertainties, usableColumns } from '../usableColumns.ts';
import { acrossColumns } from './acrossColumns.ts';
import { panelsOf, sidesApart, type PanelLines } from './panelsOf.ts';
import { placeAthwart } from './placeAthwart.ts';

/** Lines of one side, or of both, in one network, or why they cannot be. Lengths in mm. */
export interface TiedPanel {
  readonly side: PanelLines['side'];
  /** From the keel outwards, across it from port to starboard; the fit's lines by index. */
  readonly lines: readonly Line[];
  readonly across: readonly PlacementAcross[];
  readonly outcome: PanelFitted | PanelRefusal;
  /** Straightedges lay right across the keel, and do not settle this side against the other. */
  readonly keelOpen?: true;
}

export interface PanelFitted {
  readonly ok: true;
  readonly panel: Panel;
  /** Placements in the order of the fit's. */
  readonly placements: readonly (Placement | PlacementAcross)[];
  readonly systematic: readonly SystematicMode[];
  /** Stations from which to which it is judged. */
  readonly judged: readonly [number, number];
  /** Largest standard uncertainty of a reading. */
  readonly u: number;
}

/** Each side's lines tied by what was laid across them, nothing judged yet; both sides' together where what was laid right
 *  across the keel ties them, else each by itself. `options`: those of the assessment. */
export function tiedPanels(
  all: SurveyAssessment,
  options: AssessOptions = {},
): readonly TiedPanel[] {
  const edgeOf = edgeUses(all.survey, options);
  return panelsOf(all.survey).flatMap((lines) => {
    const whole = tiedPanel(lines, all, options, edgeOf);
    if (lines.side !== 'both' || whole.outcome.ok) return [whole];
    return sidesApart(lines).map((side) => ({
      ...tiedPanel(side, all, options, edgeOf),
      keelOpen: true as const,
    }));
  });
}

function tiedPanel(
  { side, lines, across }: PanelLines,
  all: SurveyAssessment,
  { resolution, limit: asked }: AssessOptions,
  edgeOf: ReturnType<typeof edgeUses>,
): TiedPanel {
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
    shown.lines.map((line) => placeAthwart(side, line)),
    laid,
    roughnessFloor(tolerance.gap),
    asked ?? limit.mm,
  );
  if (!panel.ok) return { ...shown, outcome: panel };
  const systematic = systematicOfPanel(panel, laid);
  const [from, end] = panel.space.domain;
  const to = Math.min(end, asked ?? limit.mm);
  const judged = [from, to > from ? to : end] as const;
  return {
    ...shown,
    outcome: {
      ok: true,
      panel,
      placements: laid.map(({ of }) => of),
      systematic,
      judged,
      u: Math.max(...laid.flatMap((each) => Array.from(each.u))),
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
