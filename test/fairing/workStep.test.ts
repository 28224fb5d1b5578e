import { expect, test } from 'vitest';
import { depthInSteps, showWorkDepth, WORK_STEP } from '../../src/fairing/workStep.ts';

const workDepth = (mm: number, unit: 'mm' | 'in', most?: number) =>
  depthInSteps(mm, WORK_STEP[unit], most);

test('a depth goes to the nearest step of the unit, halves up', () => {
  expect(workDepth(2.24, 'mm').rounded).toBe(2);
  expect(workDepth(2.25, 'mm').rounded).toBe(2.5);
  expect(showWorkDepth(workDepth((25.4 * 5) / 32, 'in'), 'in')).toBe('5/32');
  expect(showWorkDepth(workDepth((25.4 * 4.4) / 32, 'in'), 'in')).toBe('1/8');
});

test('what was rounded stays known', () => {
  expect(workDepth(2.24, 'mm').exact).toBe(2.24);
});

test('rounding never takes a depth above what is allowed', () => {
  expect(workDepth(0.78, 'mm', 0.8).rounded).toBe(0.5);
  expect(workDepth(0.78, 'mm', 1).rounded).toBe(1);
});

test('none is 0, without decimals', () => {
  expect(showWorkDepth(workDepth(0.1, 'mm'), 'mm')).toBe('0');
  expect(showWorkDepth(workDepth(0.1, 'in'), 'in')).toBe('0');
});

test('a negative depth is refused', () => {
  expect(() => workDepth(-0.1, 'mm')).toThrow(RangeError);
  expect(() => workDepth(NaN, 'mm')).toThrow(RangeError);
});
