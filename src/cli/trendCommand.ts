import { hullTrends } from '../seasons/hullTrends.ts';
import { readSeasonsArguments } from './seasonsArguments.ts';
import { readSeasons } from './seasonsFiles.ts';
import { complain, printable } from './surveyFile.ts';
import { trendsJson } from './trendsJson.ts';
import { trendsText } from './trendsText.ts';

/** `aftrun trend A.csv B.csv C.csv …`: depth, height, tail angle and what differs port from starboard against date.
 *  Exit status as for `assess`. */
export function trendCommand(args: readonly string[]): number {
  const read = readSeasonsArguments(args, 2);
  if (!read.ok) {
    complain(`aftrun trend: ${read.message}`);
    return 2;
  }
  const { asked } = read;
  const found = readSeasons(asked);
  if (!found) return 1;
  const trends = hullTrends(found.surveys, { ...asked.seasons, repairs: found.repairs });
  const last = found.surveys[found.surveys.length - 1];
  process.stdout.write(
    asked.json
      ? `${JSON.stringify(trendsJson(trends))}\n`
      : printable(`${trendsText(trends, last.survey.workUnit)}\n`),
  );
  return 0;
}
