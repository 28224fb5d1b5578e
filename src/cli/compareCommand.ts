import { compare } from '../seasons/compare.ts';
import type { Comparison } from '../seasons/comparison.ts';
import { comparisonJson } from './comparisonJson.ts';
import { comparisonText } from './comparisonText.ts';
import { readSeasonsArguments } from './seasonsArguments.ts';
import { readSeasons } from './seasonsFiles.ts';
import { complain, printable } from './surveyFile.ts';

/** `aftrun compare A.csv B.csv …`: what changed from each survey to the next, and from the first to the last.
 *  Exit status as for `assess`. */
export function compareCommand(args: readonly string[]): number {
  const read = readSeasonsArguments(args, { fewest: 2 });
  if (!read.ok) {
    complain(`aftrun compare: ${read.message}`);
    return 2;
  }
  const { asked } = read;
  const found = readSeasons(asked);
  if (!found) return 1;
  const { surveys, repairs } = found;
  const options = { ...asked.seasons, repairs };
  const comparisons: Comparison[] = surveys
    .slice(1)
    .map((second, i) => compare(surveys[i], second, options));
  if (surveys.length > 2)
    comparisons.push(compare(surveys[0], surveys[surveys.length - 1], options));
  process.stdout.write(
    asked.json
      ? `${JSON.stringify({ comparisons: comparisons.map(comparisonJson) })}\n`
      : printable(`${comparisons.map(comparisonText).join('\n\n')}\n`),
  );
  return 0;
}
