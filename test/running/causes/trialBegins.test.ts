import { describe, expect, it } from 'vitest';
import { beginsFrom, pairWords, type Run } from '../../../src/running/causes/trialBegins.ts';
import { SPEED_UNITS } from '../../../src/running/speedUnits.ts';

const KN = SPEED_UNITS.kn;
const run = (knots: number, saw: Run['saw'], more: Partial<Run> = {}): Run => ({
  set: 'before',
  speed: { mps: knots * KN, text: `${knots} kn` },
  saw,
  ...more,
});

describe('the speed at which porpoising begins', () => {
  it('is where it was called, within a knot', () => {
    const read = beginsFrom([run(20, 'steady'), run(28, 'begins'), run(30, 'porpoises')]);
    if (!read.ok) throw new Error(read.reason);
    expect(read.speed / KN).toBeCloseTo(28, 9);
    expect(read.u / KN).toBeCloseTo(1, 9);
  });

  it('lies between steady and porpoising where nobody called it: half the step over root 3 (GUM 4.3.7)', () => {
    const read = beginsFrom([run(24, 'steady'), run(30, 'porpoises')]);
    if (!read.ok) throw new Error(read.reason);
    expect(read.speed / KN).toBeCloseTo(27, 9);
    expect(read.u / KN).toBeCloseTo(Math.hypot(1, 3 / Math.sqrt(3)), 9);
  });

  it('is not told where the runs cannot show it', () => {
    expect(beginsFrom([])).toMatchObject({ ok: false });
    expect(beginsFrom([run(24, 'porpoises')])).toMatchObject({ ok: false });
    expect(beginsFrom([run(30, 'steady'), run(24, 'porpoises')])).toEqual({
      ok: false,
      reason: 'it porpoised at 24 kn and ran steady at 30 kn',
    });
  });
});

describe('before and after a change, in words', () => {
  it('tells by how much later it begins, and what else was not the same', () => {
    const said = pairWords(
      [run(28, 'begins', { sea: 'calm' })],
      [run(34, 'begins', { sea: 'slight' })],
    );
    expect(said).toEqual([
      'Before: porpoising begins at 28 ± 2 kn.',
      'After: porpoising begins at 34 ± 2 kn.',
      'After the change it begins later, by 6 ± 3 kn: the change helps.',
      'Not the same before and after: sea (calm, then slight). Weigh what of it was the change.',
    ]);
  });

  it('claims nothing that the runs cannot show', () => {
    expect(pairWords([run(28, 'begins')], [run(29, 'begins')]).join(' ')).toContain(
      'cannot be told',
    );
    expect(pairWords([run(34, 'begins')], [run(28, 'begins')]).join(' ')).toContain('worse');
    expect(pairWords([run(28, 'begins')], [])).toContain('After: no runs yet.');
    expect(pairWords([], [])).toEqual([]);
  });
});
