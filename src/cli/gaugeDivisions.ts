import type { Survey } from '../survey/survey.ts';
import { houseDivision } from '../survey/usable.ts';

/** The divisions that a survey's gauges were read to, finest first, mm, and whether a house default stands
 *  in for one that nobody stated. `resolution`: a division asked for, which goes before the survey's own. */
export interface GaugeDivisions {
  readonly divisions: readonly number[];
  readonly houseDefault: boolean;
}

export function gaugeDivisions(survey: Survey, resolution?: number): GaugeDivisions {
  const stated = survey.lines.flatMap(({ placements }) =>
    placements.flatMap((placement) => [
      ...placement.readings.map((r) => resolution ?? r.division ?? placement.division),
      ...(placement.log === undefined ? [] : [resolution ?? placement.division]),
    ]),
  );
  const used = new Set(stated.map((division) => division ?? houseDivision(survey.workUnit)));
  return {
    divisions: [...used].sort((a, b) => a - b),
    houseDefault: stated.includes(undefined),
  };
}
