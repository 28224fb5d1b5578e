import type { Entry } from '../book/entry.ts';
import type { HullLine } from '../survey/fold/hullLinesOf.ts';
import { readStanding, type Stated } from '../survey/fold/readStanding.ts';
import { isPair, type SurveyPair } from './acceptances.ts';

export interface ControlLine extends Pick<Stated<'control line'>, 'id' | 'by' | 'at'> {
  /** The line's id and its name. */
  readonly line: string;
  readonly name: string;
  readonly reason?: string;
}

/** The lines that somebody named as untouched between two surveys, in the order of the ids. A line that does not stand
 *  is passed over. */
export function controlLinesBetween(
  standing: readonly Entry[],
  lines: readonly HullLine[],
  pair: SurveyPair,
): readonly ControlLine[] {
  return readStanding(standing)
    .of('control line')
    .flatMap(({ id, by, at, body }) => {
      const line = lines.find(({ ids }) => ids.includes(body.line));
      if (line === undefined || !isPair(body.surveys, pair)) return [];
      return [
        {
          id,
          by,
          at,
          line: line.id,
          name: line.name,
          ...(body.reason !== undefined && { reason: body.reason }),
        },
      ];
    });
}
