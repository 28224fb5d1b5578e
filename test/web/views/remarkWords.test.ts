import { expect, test } from 'vitest';
import { remarkWords } from '../../../web/views/remarkWords.ts';

const ahead = (line: string, n: number) => ({
  about: 'line' as const,
  line,
  kind: 'readings ahead of the limit' as const,
  words: `${line}: ${n} readings ahead of the limit of the straight run: drawn, not judged.`,
});

test('what holds of several lines is said once, with their names', () => {
  expect(remarkWords([ahead('P150', 2), ahead('P250', 3), ahead('S150', 2)])).toEqual([
    'P150, S150: 2 readings ahead of the limit of the straight run: drawn, not judged.',
    'P250: 3 readings ahead of the limit of the straight run: drawn, not judged.',
  ]);
});

test('a remark that names no line stands as it is', () => {
  const words = 'Hook alike on both sides: moulded in?';
  expect(remarkWords([{ about: 'survey', kind: 'alike port and starboard', words }])).toEqual([
    words,
  ]);
});
