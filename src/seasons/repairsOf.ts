import type { Entry } from '../book/entry.ts';
import type { HullLine } from '../survey/fold/hullLinesOf.ts';
import { readStanding } from '../survey/fold/readStanding.ts';
import { firstStated, thingsOf } from '../survey/fold/thingsOf.ts';
import type { Survey } from '../survey/survey.ts';
import type { Repair } from './repair.ts';
import { repairsStated } from './repairsStated.ts';
import { dayOf } from './season.ts';

/** A repair of a hull; `id`: that of the thing, where an entry states it and no file's condition. */
export interface KnownRepair extends Repair {
  readonly id?: string;
}

/** Every repair that is known of a hull, in order of time: those that entries state and those that files brought in
 *  their conditions. Those without a day that can be read are given apart: they cannot begin a baseline. */
export function repairsOf(
  standing: readonly Entry[],
  lines: readonly HullLine[],
  surveys: readonly Survey[],
): { readonly repairs: readonly KnownRepair[]; readonly undated: readonly string[] } {
  const things = thingsOf(readStanding(standing).of('repair'), firstStated, () => 'a repair');
  const undated: string[] = [];
  const stated = things.list.flatMap(({ id, shown: { body } }): readonly KnownRepair[] => {
    const date = dayOf(body.date);
    if (date === undefined) {
      undated.push(`${body.what} (${body.date})`);
      return [];
    }
    const worked = body.lines?.map(
      (line) => lines.find(({ ids }) => ids.includes(line))?.id ?? line,
    );
    return [{ id, date, what: body.what, ...(worked !== undefined && { lines: worked }) }];
  });
  const filed = repairsStated(surveys);
  return {
    repairs: [...stated, ...filed.repairs].sort((a, b) =>
      a.date < b.date ? -1 : a.date > b.date ? 1 : 0,
    ),
    undated: [...undated, ...filed.unreadable],
  };
}
