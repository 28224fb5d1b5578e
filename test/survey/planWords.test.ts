import { describe, expect, test } from 'vitest';
import { canProveWords, recommendedWords } from '../../src/survey/planWords.ts';

const INCH = 25.4;

describe('a plan in words', () => {
  const whole = {
    ok: true,
    hookFrom: 2.48,
    rockerFrom: 2.48,
    fairUpTo: 0.89,
    chance: 0.9,
    length: 762,
    shortest: [
      { from: 0, to: 18 * INCH, length: 9 * INCH },
      { from: 18 * INCH, to: 60 * INCH, length: 18 * INCH },
    ],
  } as const;

  test('says how deep, how fair, how often, how long, and how short where', () => {
    expect(canProveWords(whole, 'in')).toEqual([
      'This gauge and these stations prove, in 9 surveys of 10, a hook or rocker of about 3/32 in or more, and as fair what departs by about 1/32 in or less; that is for a hollow or hump 30 in long, and a shorter one needs more. Between them a line more often stays undecided.',
      'Nothing shorter than about 9 in can show from 0 to 18 in, 18 in from there to 60 in.',
    ]);
  });

  test('says where nothing can be proven that often', () => {
    const none = { ok: true, chance: 0.9, length: 750, shortest: whole.shortest } as const;
    expect(canProveWords(none, 'mm')[0]).toBe(
      'This gauge and these stations prove, in 9 surveys of 10, no hook or rocker within reason; that is for a hollow or hump 750 mm long, and a shorter one needs more. They prove no line fair that often, not even a straight one: what is fair may stay undecided. A finer gauge, closer stations or laying the edge more than once helps.',
    );
    const few = { ok: false, reason: 'too few stations', n: 1, needed: 4 } as const;
    expect(canProveWords(few, 'mm')).toEqual([
      'With 1 station within the limit nothing can be proven: 4 are the least.',
    ]);
  });

  test('says many uneven spacings by their shortest and longest', () => {
    const shortest = [30, 60, 90, 120].map((length, i) => ({ from: i, to: i + 1, length }));
    expect(canProveWords({ ...whole, shortest }, 'mm')[1]).toBe(
      'Nothing shorter than about 30 mm can show, and 120 mm where the stations are farthest apart.',
    );
  });

  test('says what set is recommended, or which gauge could', () => {
    const stations = [0, 76.2, 152.4].map((mm) => ({ mm, text: '' }));
    const spacing = { near: 38.1, to: 18 * INCH, beyond: 76.2 };
    expect(
      recommendedWords({ ok: true, stations, layings: 2, spacing, minutes: 16 }, 2.4, 'in'),
    ).toBe(
      'To prove a hook of about 3/32 in, 9 times of 10: every 1 1/2 in to 18 in, then every 3 in: 3 stations, laid and read 2 times, about 16 minutes a line.',
    );
    const gauge = { mm: 0.1, text: '0.1 mm' };
    expect(recommendedWords({ ok: false, reason: 'gauge too coarse', gauge }, 2.3, 'mm')).toBe(
      'With this gauge no usual set of stations would prove a hook of about 2.3 mm, 9 times of 10; a gauge of 0.1 mm could.',
    );
    expect(recommendedWords({ ok: false, reason: 'gauge too coarse' }, 2.3, 'mm')).toMatch(
      /agree on a wider tolerance/,
    );
  });
});
