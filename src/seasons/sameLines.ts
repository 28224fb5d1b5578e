import type { Line } from '../survey/survey.ts';
import { matchLines } from './matchLines.ts';

/** A line over the surveys that have it. */
export interface FollowedLine {
  /** As the last survey that has it writes it. */
  readonly line: Line;
  /** In the order of the surveys: which one, and the line as it writes it. */
  readonly seen: readonly { readonly survey: number; readonly line: Line }[];
}

/** Which lines of several surveys are one and the same, by side and offset or by landmark, each survey matched with
 *  what the later ones have. `surveys`: their lines, in order of time. Throws RangeError as `matchLines` does. */
export function sameLines(
  surveys: readonly (readonly Line[])[],
  within: number,
): readonly FollowedLine[] {
  const known: { line: Line; seen: { survey: number; line: Line }[] }[] = [];
  for (let survey = surveys.length - 1; survey >= 0; survey--) {
    const { matched, onlySecond } = matchLines(
      known.map(({ line }) => line),
      surveys[survey],
      within,
    );
    for (const { first, second } of matched) {
      known.find(({ line }) => line === first)?.seen.unshift({ survey, line: second });
    }
    known.push(...onlySecond.map((line) => ({ line, seen: [{ survey, line }] })));
  }
  return known;
}
