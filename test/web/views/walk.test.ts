import { expect, test } from 'vitest';
import { goesForward, readWalk, walkAfter } from '../../../web/views/walk.ts';

const lines = [0, 1, 2, 3];

test('a walk forward or aft is the same on every line; a snake turns round on each', () => {
  expect(lines.map((nth) => goesForward('forward', nth))).toEqual([true, true, true, true]);
  expect(lines.map((nth) => goesForward('aft', nth))).toEqual([false, false, false, false]);
  expect(lines.map((nth) => goesForward('snake', nth))).toEqual([true, false, true, false]);
});

test('the walks come round in turn, and what is none is a walk forward', () => {
  expect([readWalk(undefined), readWalk('sideways'), readWalk('snake')]).toEqual([
    'forward',
    'forward',
    'snake',
  ]);
  expect(walkAfter('forward')).toBe('aft');
  expect(walkAfter('aft')).toBe('snake');
  expect(walkAfter('snake')).toBe('forward');
});
