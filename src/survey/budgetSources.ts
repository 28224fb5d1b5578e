import type { SystematicMode } from '../fit/systematic.ts';
import type { SurveyAssessment } from './assessment.ts';
import { showTolerance } from './figures.ts';
import { divisionOf, readingUncertainties } from './readingUncertainties.ts';
import { laidEdges } from './laidEdges.ts';
import type { Placement } from './survey.ts';
import type { UsableColumns } from './usableColumns.ts';

/** A source of uncertainty, as a technician says it and in the terms of the GUM. */
export interface BudgetSource {
  readonly kind: 'rounding' | 'repeatability' | 'edge' | 'between';
  /** Stands for it in a drawing. */
  readonly letter: string;
  readonly name: string;
  /** Where its size comes from. */
  readonly basis: string;
  /** Its own standard uncertainty, mm, of a single reading (the largest on the line); absent where it has no
   *  single size. */
  readonly u?: number;
  readonly type: 'A' | 'B';
  readonly distribution: SystematicMode['distribution'];
  /** Where in JCGM 100:2008 (GUM) the evaluation is described; numbers from memory. */
  readonly clause: string;
  /** Degrees of freedom, where it has a number of them. */
  readonly dof?: number;
}

type Assessed = Pick<SurveyAssessment, 'repeatability' | 'edges' | 'survey'>;

/** What each reading carries by itself, and what lies between them. */
export function readingSources(
  placements: readonly UsableColumns[],
  { repeatability, survey }: Assessed,
): readonly BudgetSource[] {
  let rounding = 0;
  let repeat = 0;
  const seen = new Set<number>();
  for (const columns of placements) {
    for (let i = 0; i < columns.x.length; i++) {
      const own = readingUncertainties(columns, i, repeatability);
      rounding = Math.max(rounding, own.rounding);
      repeat = Math.max(repeat, own.repeat);
      seen.add(divisionOf(columns, i));
    }
  }
  const divisions = [...seen].sort((a, b) => a - b);
  const [finest, coarsest] = [divisions[0], divisions[divisions.length - 1]].map((mm) =>
    showTolerance(mm, survey.workUnit),
  );
  const within = rounding === 0 ? '; it is in the scatter of the repeats already' : '';
  return [
    {
      kind: 'between',
      letter: 'B',
      name: 'how the bottom may run between what was read',
      basis: 'the smoothness that the readings bear out',
      type: 'B',
      distribution: 'normal',
      clause: '4.3.1',
    },
    {
      kind: 'rounding',
      letter: 'G',
      name: 'rounding of the gauge',
      basis: `read to ${finest === coarsest ? finest : `between ${finest} and ${coarsest}`}${within}`,
      ...(rounding > 0 && { u: rounding }),
      type: 'B',
      distribution: 'rectangular',
      clause: 'F.2.2.1',
    },
    {
      kind: 'repeatability',
      letter: 'A',
      name: 'how a reading repeats',
      ...(repeat > 0 && { u: repeat }),
      distribution: 'normal',
      ...repeatabilitySource(repeatability, repeat),
    },
  ];
}

function repeatabilitySource(
  { from, dof }: SurveyAssessment['repeatability'],
  repeat: number,
): Pick<BudgetSource, 'basis' | 'type' | 'clause' | 'dof'> {
  if (from === 'stated') return { basis: 'as stated', type: 'B', clause: '4.3.3' };
  if (from === 'house default') {
    return {
      basis: 'half a division, a house default',
      type: 'B',
      clause: '4.3.1',
    };
  }
  const less = repeat > 0 ? '' : '; less than the rounding, which stands for both';
  return {
    basis: `found from repeats${less}`,
    type: 'A',
    clause: '4.2.4',
    ...(dof !== undefined && { dof }),
  };
}

/** Letters of what an edge may bring, in the order in which they come. */
const EDGE_LETTERS = ['S', 'T', 'U', 'V', 'W'] as const;

/** What is not known of the straightedges that placements were laid with, one source a name. */
export function edgeSources(
  placements: readonly Placement[],
  systematic: readonly SystematicMode[],
  { edges, survey }: Assessed,
): readonly BudgetSource[] {
  const bounds = laidEdges(edges, placements).flatMap(({ bound }) => bound ?? []);
  const byName = new Map(systematic.map((mode) => [mode.name, mode]));
  return [...byName.values()].map(({ name, distribution }, i): BudgetSource => {
    const bounded = distribution === 'rectangular';
    const said = [
      ...new Set(
        bounds.map(
          ({ size, over }) =>
            `within ${showTolerance(size, survey.workUnit)} over ${showTolerance(over, survey.workUnit)}`,
        ),
      ),
    ].join('; ');
    return {
      kind: 'edge',
      letter: EDGE_LETTERS[Math.min(i, EDGE_LETTERS.length - 1)],
      name,
      basis: bounded
        ? said || 'within what is stated of it'
        : 'worked out from what is known of it',
      type: 'B',
      distribution,
      clause: bounded ? '4.3.7' : '4.3.1',
    };
  });
}
