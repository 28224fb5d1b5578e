import { neighboursOf } from '../../fit/surface/agreement.ts';
import { areasOf, type Areas } from '../../fit/surface/areas.ts';
import type { Panel, PanelRefusal } from '../../fit/surface/fitPanel.ts';
import { misclosureOf, type Misclosure } from '../../fit/surface/misclosure.ts';
import { candidatesAcross, worthAcross, type AcrossWorth } from '../../fit/surface/nextAcross.ts';
import { panelMap, type PanelMap } from '../../fit/surface/panelMap.ts';
import { twistOf, twistRow, type Twist } from '../../fit/surface/twist.ts';
import type { SystematicMode } from '../../fit/systematic.ts';
import type { AssessOptions } from '../assess.ts';
import type { SurveyAssessment } from '../assessment.ts';
import type { Line, Placement, PlacementAcross } from '../survey.ts';
import type { PanelLines } from './panelsOf.ts';
import { sidesCompared, type SidesCompared } from './sidesCompared.ts';
import { tiedPanels, type TiedPanel } from './tiedPanels.ts';

/** What is said of one panel as a surface, of one side or of both. Lengths in mm, angles in degrees. */
export interface PanelAssessment {
  readonly side: PanelLines['side'];
  /** From the keel outwards, across it from port to starboard; the fit's lines by index. */
  readonly lines: readonly Line[];
  readonly across: readonly PlacementAcross[];
  readonly outcome: PanelJudged | PanelRefusal;
  /** Straightedges lay right across the keel, and do not settle this side against the other. */
  readonly keelOpen?: true;
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
  readonly sides?: SidesCompared;
}

/** Each side of a survey as one surface, where straightedges were laid across, or both as one where they were laid right
 *  across the keel of a bottom that is flat there. `all`: the survey's assessment;
 *  `options`: those it was made with. Panels that are not tied say so and have nothing but their lines. */
export function assessPanels(all: SurveyAssessment, options: AssessOptions = {}): PanelsAssessment {
  const panels = tiedPanels(all, options).map((panel) => assessPanel(panel, all));
  const sides = sidesCompared(panels, all.tolerance.gap);
  return { panels, ...(sides && { sides }) };
}

function assessPanel(
  { side, lines, across, outcome, keelOpen }: TiedPanel,
  all: SurveyAssessment,
): PanelAssessment {
  const shown = { side, lines, across, ...(keelOpen && { keelOpen }) };
  if (!outcome.ok) return { ...shown, outcome };
  const { tolerance } = all;
  const { panel, systematic, judged, u } = outcome;
  const question = { tolerance: tolerance.gap, over: tolerance.over };
  const twist = twistOf(panel, judged, question, systematic);
  return {
    ...shown,
    outcome: {
      ok: true,
      panel,
      placements: outcome.placements,
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
