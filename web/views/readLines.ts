import { readingCount } from '../../src/survey/usableColumns.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { countText } from './countText.ts';

export interface ReadLine {
  readonly key: string;
  readonly name: string;
  /** "14 readings", "28 readings in 2 layings". */
  readonly words: string;
}

/** What was read of each line, while nothing is judged of it yet. */
export function readLines({ lines }: Survey): readonly ReadLine[] {
  return lines.flatMap(({ id, name, placements }) => {
    const laid = placements.map(readingCount).filter((count) => count > 0);
    if (laid.length === 0) return [];
    const sum = laid.reduce((a, b) => a + b);
    const readings = `${countText(sum)} ${sum === 1 ? 'reading' : 'readings'}`;
    return [
      {
        key: id,
        name,
        words: laid.length > 1 ? `${readings} in ${laid.length} layings` : readings,
      },
    ];
  });
}
