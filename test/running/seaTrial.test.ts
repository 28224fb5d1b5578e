import { expect, test } from 'vitest';
import { compareTrials } from '../../src/running/seaTrial.ts';

test('porpoising that begins clearly faster after a change begins later', () => {
  expect(compareTrials({ speed: 14, u: 0.3 }, { speed: 16, u: 0.4 })).toEqual({
    change: 2,
    u: 0.5,
    says: 'later',
  });
  expect(compareTrials({ speed: 16, u: 0.3 }, { speed: 14, u: 0.4 }).says).toBe('sooner');
});

test('within what the speeds may be out by, nothing can be told', () => {
  expect(compareTrials({ speed: 14, u: 0.3 }, { speed: 14.9, u: 0.4 }).says).toBe('cannot be told');
});

test.each([[{ speed: 0, u: 1 }], [{ speed: 10, u: 0 }]])('%o is refused', (trial) => {
  expect(() => compareTrials(trial, { speed: 14, u: 0.3 })).toThrow(RangeError);
});
