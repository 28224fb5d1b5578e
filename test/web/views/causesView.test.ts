import { describe, expect, it } from 'vitest';
import { engineHeightWords, speedUnitOf, typedSpeed } from '../../../web/views/causesView.ts';

describe('a speed typed on the water', () => {
  it('is in the unit of the last run unless it says its own', () => {
    expect(typedSpeed('28', 'kn')?.text).toBe('28 kn');
    expect(typedSpeed('28', 'kn')?.mps).toBeCloseTo(14.4044, 4);
    expect(typedSpeed('32 mph', 'kn')?.mps).toBeCloseTo(14.3053, 4);
    const last = { set: 'before', saw: 'steady', speed: { mps: 14.3, text: '32 mph' } } as const;
    expect(speedUnitOf([last])).toBe('mph');
    expect(speedUnitOf([])).toBe('kn');
  });

  it('is none where it is 0, empty or a word', () => {
    for (const text of ['', '0', 'fast', '-3', '12 furlongs']) {
      expect(typedSpeed(text, 'kn')).toBeUndefined();
    }
  });
});

it('says the engine’s height against the rule in the person’s unit', () => {
  expect(engineHeightWords(24 * 25.4, 25.4, 'in')).toBe(
    'Plate 1 in above the bottom at 24 in of setback: too low by 1 in; the rule of thumb puts it 2 in to 3 in above.',
  );
  expect(engineHeightWords(0, -10, 'mm')).toContain('about right');
});
