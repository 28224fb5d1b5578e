import type { Standing } from '../../src/book/standing.ts';
import { gatesOf, gateStatementsOf } from '../../src/fairing/gates.ts';
import { acceptancesBetween } from '../../src/seasons/acceptances.ts';
import { controlLinesBetween } from '../../src/seasons/controlLines.ts';
import { repairsOf } from '../../src/seasons/repairsOf.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import { signaturesOf } from '../../src/survey/fold/signaturesOf.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { firstStated, thingsOf } from '../../src/survey/fold/thingsOf.ts';
import { bookSays } from './bookSays.ts';
import type { RepairSaid, Season } from './exhibitHistory.ts';
import type { ExhibitFrom } from './exhibitView.ts';

/** What an exhibit is made of, from a hull's entries. `seasons`: every survey of the hull, this one too. */
export function exhibitFrom({
  stands,
  hull,
  state,
  assessment,
  seasons,
  ...rest
}: {
  readonly stands: Standing;
  readonly hull: HullState;
  readonly state: SurveyState;
  readonly assessment: SurveyAssessment;
  readonly seasons: readonly Season[];
} & Pick<ExhibitFrom, 'unit' | 'paper'>): ExhibitFrom {
  const { standing } = stands;
  const { key } = state;
  return {
    ...rest,
    assessment,
    hull,
    key,
    seasons,
    gates: gatesOf(assessment, gateStatementsOf(standing, key)),
    ...(state.place !== undefined && { place: state.place }),
    ...(state.by !== undefined && { by: state.by }),
    planned: state.plan.stations,
    remarks: state.remarks,
    repairs: repairsSaid(stands, hull, seasons),
    signatures: signaturesOf(stands, key),
    says: bookSays(stands),
    between: (other) => ({
      acceptances: acceptancesBetween(standing, [other, key]),
      control: controlLinesBetween(standing, hull.lines, [other, key]).map(({ name }) => name),
    }),
  };
}

/** Repairs with what their entries say besides. */
function repairsSaid(
  { standing }: Standing,
  hull: HullState,
  seasons: readonly Season[],
): readonly RepairSaid[] {
  const surveys = seasons.flatMap(({ assessment }) => assessment?.survey ?? []);
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
