import { hullTrends } from '../seasons/hullTrends.ts';
import { metricsCsv } from '../seasons/metricsCsv.ts';
import { readSeasonsArguments } from './seasonsArguments.ts';
import { readSeasons } from './seasonsFiles.ts';
import { complain, printable } from './surveyFile.ts';
import { trendsJson } from './trendsJson.ts';
import { trendsText } from './trendsText.ts';

/** `aftrun trend A.csv B.csv C.csv …`: depth, height, tail angle and what differs port from starboard against date;
 *  with `--csv` the figures of every survey and line, a row each. Exit status as for `assess`. */
export function trendCommand(args: readonly string[]): number {
  const read = readSeasonsArguments(args, { fewest: 2, csv: true });
  if (!read.ok) {
    complain(`aftrun trend: ${read.message}`);
    return 2;
  }
  const { asked } = read;
  const found = readSeasons(asked);
  if (!found) return 1;
  if (asked.csv) {
    process.stdout.write(metricsCsv(found.surveys, asked.seasons));
    return 0;
  }
  const trends = hullTrends(found.surveys, { ...asked.seasons, repairs: found.repairs });
  const last = found.surveys[found.surveys.length - 1];
  process.stdout.write(
    asked.json
      ? `${JSON.stringify(trendsJson(trends))}\n`
      : printable(`${trendsText(trends, last.survey.workUnit)}\n`),
  );
  return 0;
}
