import type { Judged, LineAssessment } from '../../survey/assessment.ts';
import { showTolerance, type WorkUnit } from '../../survey/figures.ts';
import type { TiedPanel } from '../../survey/panels/tiedPanels.ts';
import { hindranceWords, tooNearTransom } from '../plan/hindrance.ts';
import type { Camber, Feather, PanelChoice } from '../plan/options.ts';
import type { Hindrance } from '../plan/plan.ts';
import type { Found } from '../plan/plannedWork.ts';
import { stationWords } from '../plan/stations.ts';
import type { Terms } from '../plan/targetProgramme.ts';
import { stretchOf, type Stretch } from '../plan/targetShape.ts';
import { panelDepths } from './panelDepths.ts';
import { solvePanelTarget, type PanelSolved } from './panelTarget.ts';
import { tiedStretches } from './tiedStretches.ts';

export interface PanelGroup {
  readonly panel: TiedPanel;
  readonly members: readonly { readonly line: LineAssessment; readonly judged: Judged }[];
}

/** How far a target of straight buttocks may stand off straight athwart, as a part of the tolerance: the rest is left for
 *  rounding and for what is not known of the surface. House default. */
const ATHWART = 1 / 2;

/** A target for every line of a panel, or why there is none for any of them. */
export function solvePanelGroup(
  { panel: { side, outcome, lines }, members }: PanelGroup,
  { target }: Pick<PanelChoice, 'target'>,
  {
    feather,
    terms,
    camber,
    asked,
    tolerance,
    unit,
  }: {
    readonly feather: Feather;
    readonly terms: Terms;
    readonly camber?: Camber;
    /** Forward limit. */
    readonly asked?: number;
    readonly tolerance: number;
    readonly unit: WorkUnit;
  },
): { readonly is: 'found'; readonly found: readonly Found[] } | Hindered {
  if (!outcome.ok || members.length < 3) {
    return hindered({
      limit: 'lines not tied',
      words:
        'Straightedges laid across do not settle these lines against one another: lay the straightedge across them, or work line by line.',
    });
  }
  if (target === 'one plane' && outcome.panel.datum !== 'plane') {
    return hindered({
      limit: 'twist not known',
      words:
        'Whether this panel is twisted was not seen: lay the straightedge on a diagonal, or bring it to straight buttocks, which leave a twist as it is.',
    });
  }
  const ends = members.map(({ judged }) => judged.judgement.judged[1]);
  const forward = Math.min(asked ?? Infinity, ...ends);
  const stretches = members.flatMap(({ judged }): Stretch[] => {
    const stretch = stretchOf(judged.judgement.profile, forward, feather, camber);
    return stretch === undefined ? [] : [stretch];
  });
  if (stretches.length < members.length) return hindered(tooNearTransom(forward, unit));
  const tied = tiedStretches(
    outcome,
    stretches.map((stretch, i) => ({
      stretch,
      index: lines.findIndex(({ id }) => id === members[i].line.line.id),
    })),
  );
  const solved = solvePanelTarget(tied, target, terms, ATHWART * tolerance);
  if (!solved.ok) {
    return hindered(wordsOf(solved, members[solved.line].line.line.name, terms, unit));
  }
  const depths = panelDepths(outcome, tied, solved.figures, target, terms);
  return {
    is: 'found',
    found: members.map(({ line, judged }, own) => ({
      line,
      judged,
      solved,
      stretches,
      own,
      terms,
      ...(camber && { camber }),
      ...(asked !== undefined && asked > forward + 0.5 && { asked }),
      together: { of: `${side} ${lines[0].id}`, depths: depths.map((each) => each[own]) },
    })),
  };
}

interface Hindered {
  readonly is: 'hindered';
  readonly because: Hindrance;
}

function hindered(because: Hindrance): Hindered {
  return { is: 'hindered', because };
}

function wordsOf(
  { limit, at, needs, allowed }: Extract<PanelSolved, { ok: false }>,
  name: string,
  { grindLimit }: Terms,
  unit: WorkUnit,
): Hindrance {
  if (limit === 'grind') {
    const { words, ...rest } = hindranceWords({ at, needs }, grindLimit, unit);
    return { ...rest, words: `On ${name}: ${words}` };
  }
  return {
    limit: 'misses the hull ahead',
    at,
    needs,
    allowed,
    words: `One target for the panel would miss the untouched hull by ${showTolerance(needs, unit)} on ${name} at ${stationWords(at, unit)}, where the feather takes up ${showTolerance(allowed, unit)}: what bends the panel athwart runs on ahead of the work. Move the forward limit to where it ends, or work line by line.`,
  };
}
