import { expect, test, vi } from 'vitest';
import { Turns } from '../../../web/sheets/turns.svelte.ts';

const shown = (sections: readonly (() => boolean)[]): number =>
  sections.filter((come) => come()).length;

test('sections come one after another, in the order in which they are made', () => {
  vi.useFakeTimers();
  const turns = new Turns();
  const sections = Array.from({ length: 4 }, () => turns.take());
  expect(shown(sections)).toBe(1);
  vi.advanceTimersToNextTimer();
  expect(sections.map((come) => come())).toEqual([true, true, false, false]);
  vi.runAllTimers();
  expect(shown(sections)).toBe(4);
  // One that is added later has its turn too.
  const later = turns.take();
  expect(later()).toBe(false);
  vi.runAllTimers();
  expect(later()).toBe(true);
  vi.useRealTimers();
});

test('all come at once when it is printed, and those made from then on', () => {
  vi.useFakeTimers();
  const turns = new Turns();
  const sections = [turns.take(), turns.take(), turns.take()];
  turns.finish();
  expect(shown([...sections, turns.take()])).toBe(4);
  expect(vi.getTimerCount()).toBe(0);
  vi.useRealTimers();
});
