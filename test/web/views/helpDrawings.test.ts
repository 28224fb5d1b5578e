import { describe, expect, test } from 'vitest';

import { helpDrawing } from '../../../web/views/helpDrawings.ts';

const TOPICS = ['hook', 'rocker', 'resting', 'blocks', 'below'] as const;
const PROFILES = ['hook', 'rocker', 'resting', 'blocks'] as const;
/** A letter's width in a plain face, in parts of its size; capitals are wider than that of most. */
const LETTER = 0.62 * 13;

describe('a drawing that helps', () => {
  test.each(TOPICS)('%s keeps its labels inside, and apart from one another', (topic) => {
    const { labels, width, height } = helpDrawing(topic);
    const boxes = labels.map(({ x, y, text, anchor }) => {
      const length = text.length * LETTER;
      const left = anchor === 'start' ? x : anchor === 'end' ? x - length : x - length / 2;
      return { left, right: left + length, top: y - 10, bottom: y + 3 };
    });
    for (const { left, right, top, bottom } of boxes) {
      expect(left).toBeGreaterThanOrEqual(0);
      expect(right).toBeLessThanOrEqual(width);
      expect(top).toBeGreaterThanOrEqual(0);
      expect(bottom).toBeLessThanOrEqual(height);
    }
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) {
        const apart = a.right <= b.left || b.right <= a.left;
        expect(apart || a.bottom <= b.top || b.bottom <= a.top).toBe(true);
      }
    });
  });

  test.each(TOPICS)(
    '%s says by its name what it is of, and by its summary what it means',
    (topic) => {
      const { name, summary } = helpDrawing(topic);
      expect(name).toMatch(/\.$/);
      expect(summary.length).toBeGreaterThan(name.length);
    },
  );

  test.each(PROFILES)(
    '%s has the transom on the left, the bow on the right, the water below',
    (topic) => {
      const { labels } = helpDrawing(topic);
      const at = (start: string) => labels.find(({ text }) => text.startsWith(start));
      expect(at('TRANSOM')).toMatchObject({ anchor: 'start', x: 36 });
      expect(at('BOW')).toMatchObject({ anchor: 'end' });
      expect(at('towards the water')?.y).toBe(Math.max(...labels.map(({ y }) => y)));
    },
  );

  test('from below and with the bow up, port is on the right', () => {
    const { labels } = helpDrawing('below');
    const at = (text: string) => labels.find((label) => label.text === text);
    expect(at('PORT')?.x).toBeGreaterThan(180);
    expect(at('STARBOARD')?.x).toBeLessThan(180);
    expect(at('TRANSOM')?.y).toBeGreaterThan(at('BOW ↑')?.y ?? NaN);
  });
});
