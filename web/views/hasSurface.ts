import type { Survey } from '../../src/survey/survey.ts';

/** Whether a survey has enough for a map: a placement across, or three lines on a side. */
export function hasSurface({ lines, across }: Survey): boolean {
  if (across !== undefined && across.length > 0) return true;
  const read = lines.filter(({ placements }) => placements.length > 0);
  return (['port', 'starboard'] as const).some(
    (side) => read.filter((line) => line.side === side).length >= 3,
  );
}
