import type { Standing } from '../../src/book/standing.ts';
import { acceptancesBetween } from '../../src/seasons/acceptances.ts';
import { controlLinesBetween } from '../../src/seasons/controlLines.ts';
import { repairsOf } from '../../src/seasons/repairsOf.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import { firstStated, thingsOf } from '../../src/survey/fold/thingsOf.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { Between, RepairSaid, Season } from './exhibitHistory.ts';

/** A survey of the hull; without its measurements where it is not judged here: a long log. */
export type SeasonAsked = Omit<Season, 'assessment'> & { readonly survey?: Survey };

/** What is asked of a hull's history, in plain data, so that another thread can answer it. */
export interface HistoryAsked {
  /** Every survey of the hull, this one too; those of one day in the order in which they were begun. */
  readonly seasons: readonly SeasonAsked[];
  /** Key of this one. */
  readonly own: string;
  readonly repairs: readonly RepairSaid[];
  readonly unit: WorkUnit;
  /** By the other survey's key. */
  readonly between: readonly (readonly [other: string, Between])[];
}

/** What is asked of the history of a survey's hull, from the hull's entries. */
export function historyAsked({
  stands,
  hull,
  ...asked
}: {
  readonly stands: Standing;
  readonly hull: HullState;
} & Pick<HistoryAsked, 'seasons' | 'own' | 'unit'>): HistoryAsked {
  const { standing } = stands;
  const { own, seasons } = asked;
  return {
    ...asked,
    repairs: repairsSaid(
      stands,
      hull,
      seasons.flatMap(({ survey }) => survey ?? []),
    ),
    between: seasons
      .filter(({ key }) => key !== own)
      .map(({ key }) => [
        key,
        {
          acceptances: acceptancesBetween(standing, [key, own]),
          control: controlLinesBetween(standing, hull.lines, [key, own]).map(({ name }) => name),
        },
      ]),
  };
}

/** Repairs with what their entries say besides. */
function repairsSaid(
  { standing }: Standing,
  hull: HullState,
  surveys: readonly Survey[],
): readonly RepairSaid[] {
  const { repairs } = repairsOf(standing, hull.lines, surveys);
  const stated = thingsOf(readStanding(standing).of('repair'), firstStated, () => 'a repair');
  return repairs.map((repair): RepairSaid => {
    const { id, lines } = repair;
    const body = id === undefined ? undefined : stated.find.get(id)?.shown.body;
    const names = lines?.map((line) => hull.lines.find((each) => each.id === line)?.name ?? line);
    return {
      ...repair,
      ...(names !== undefined && { names }),
      ...(body?.by !== undefined && { by: body.by }),
      ...(body?.inspector !== undefined && { inspector: body.inspector }),
      ...(body?.notes !== undefined && { notes: body.notes }),
    };
  });
}
