import type { Line } from '../survey/survey.ts';

/** Lines nearer than this to one another are one line, where nobody says otherwise: 1 in. */
export const SAME_LINE_WITHIN = 25.4;

export interface MatchedLine {
  readonly first: Line;
  readonly second: Line;
  readonly by: 'offset' | 'landmark';
}

/** Which lines of two surveys are one and the same: of one side and at one landmark; or of one side with offsets no
 *  farther apart than `within`, mm, the nearest first. Each line is matched once; the rest are left over. The order
 *  in which the surveys are named does not matter. Throws RangeError on a `within` that is negative. */
export function matchLines(
  first: readonly Line[],
  second: readonly Line[],
  within = SAME_LINE_WITHIN,
): {
  readonly matched: readonly MatchedLine[];
  readonly onlyFirst: readonly Line[];
  readonly onlySecond: readonly Line[];
} {
  if (!(within >= 0)) throw new RangeError(`within: a length from 0 expected, got ${within}`);
  const pairs = first.flatMap((one) =>
    second
      .filter((other) => other.side === one.side)
      .map((other) => ({
        first: one,
        second: other,
        apart: Math.abs(one.offset - other.offset),
        landmark: landmarkOf(one) !== '' && landmarkOf(one) === landmarkOf(other),
      })),
  );
  const candidates = pairs
    .filter(({ landmark, apart }) => landmark || apart <= within * (1 + 1e-9))
    .sort(
      (a, b) =>
        Number(b.landmark) - Number(a.landmark) ||
        a.apart - b.apart ||
        byPlace(a, b) ||
        byNames(a, b),
    );
  const taken = new Set<Line>();
  const partner = new Map<Line, MatchedLine>();
  for (const { first: one, second: other, landmark } of candidates) {
    if (taken.has(one) || taken.has(other)) continue;
    taken.add(one).add(other);
    partner.set(one, { first: one, second: other, by: landmark ? 'landmark' : 'offset' });
  }
  return {
    matched: first.flatMap((line) => partner.get(line) ?? []),
    onlyFirst: first.filter((line) => !taken.has(line)),
    onlySecond: second.filter((line) => !taken.has(line)),
  };
}

function landmarkOf({ landmark = '' }: Line): string {
  return landmark.trim().toLowerCase().replaceAll(/\s+/g, ' ');
}

interface Pair {
  readonly first: Line;
  readonly second: Line;
}

function byPlace(a: Pair, b: Pair): number {
  return a.first.offset + a.second.offset - (b.first.offset + b.second.offset);
}

function byNames(a: Pair, b: Pair): number {
  const [one, other] = [a, b].map((pair) => [pair.first.name, pair.second.name].sort().join('\n'));
  return one < other ? -1 : one > other ? 1 : 0;
}
