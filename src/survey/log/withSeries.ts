import type { Placement, Survey } from '../survey.ts';
import type { LogRead } from './readLog.ts';

/** A survey whose logs have their readings, from the kept files as they were read, by entry.
 *  Throws RangeError on a log whose file or lay is not among them. */
export function withSeries(survey: Survey, files: ReadonlyMap<string, LogRead>): Survey {
  return eachPlacement(survey, (placement) => {
    const { log } = placement;
    if (log?.kept === undefined) return placement;
    const { entry, lay } = log.kept;
    const file = files.get(entry);
    const found =
      file?.ok === true
        ? file.survey.lines.flatMap((line) => line.placements).find(({ id }) => id === lay)
        : undefined;
    if (found?.log?.series === undefined) {
      throw new RangeError(`the kept file of ${lay}: got none, expected the one of entry ${entry}`);
    }
    return { ...placement, log: { ...log, series: found.log.series } };
  });
}

/** A survey without the readings of its logs: how many they are stays. */
export function withoutSeries(survey: Survey): Survey {
  return eachPlacement(survey, (placement) => {
    if (placement.log?.series === undefined) return placement;
    const { count, kept } = placement.log;
    return { ...placement, log: { count, ...(kept !== undefined && { kept }) } };
  });
}

/** The logs of a survey that stand in kept files. */
export function keptLogsOf(survey: Survey) {
  return survey.lines.flatMap((line) =>
    line.placements.flatMap(({ log }) => (log?.kept === undefined ? [] : [log.kept])),
  );
}

function eachPlacement(survey: Survey, change: (placement: Placement) => Placement): Survey {
  return {
    ...survey,
    lines: survey.lines.map((line) => ({ ...line, placements: line.placements.map(change) })),
  };
}
