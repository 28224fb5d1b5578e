import { describe, expect, it } from 'vitest';
import { measuredWords } from '../../../src/running/causes/measured.ts';

const inch = (size: number) => ({ mm: size * 25.4, text: `${size} in` });
const pocket = {
  count: 2,
  length: inch(12),
  width: inch(18),
  depth: inch(2.5),
} as const;

// Rules of thumb: common practice, no source.
describe('what was measured of a cause means', () => {
  it('of the engine’s height: how far it stands from the rule, in the person’s unit', () => {
    expect(measuredWords({ engine: { setback: inch(24), plate: inch(1) } }, 'in')).toEqual([
      'Plate 1 in above the bottom at 24 in of setback: too low by 1 in; the rule of thumb puts it 2 in to 3 in above.',
    ]);
    const level = { setback: { mm: 0, text: '0' }, plate: { mm: -10, text: '-10' } };
    expect(measuredWords({ engine: level }, 'mm')[0]).toContain('about right');
  });

  it('of the bracket: whether its underside clears the bottom carried aft', () => {
    expect(measuredWords({ bracket: { underside: inch(0) } }, 'in')[0]).toContain('it drags');
    expect(measuredWords({ bracket: { underside: inch(2) } }, 'in')[0]).toContain('by 2 in');
  });

  // 2 × 12 × 18 in = 432 sq in; × 2.5 in = 1,080 cu in = 17.7 litres, 18.2 kg or 40 lb of sea water.
  it('of pockets: the bottom they take, the water they hold', () => {
    expect(measuredWords({ pocket }, 'in')[0]).toBe(
      'The 2 pockets take 430 sq in of bottom out of work at the transom and hold up to 40 lb of water.',
    );
    expect(measuredWords({ pocket: { ...pocket, count: 1 } }, 'mm')[0]).toBe(
      'The pocket takes 1400 cm² of bottom out of work at the transom and holds up to 9.1 kg of water.',
    );
  });

  it('of pockets: under water and not vented is what holds the stern down, and nothing else is', () => {
    const words = (below: number, vented?: 'vented' | 'not vented') =>
      measuredWords({ pocket: { below: inch(below), ...(vented && { vented }) } }, 'in').join(' ');
    expect(words(4, 'not vented')).toContain('it can trap air and hold the stern down');
    expect(words(4, 'vented')).toContain('see that the vent is clear');
    expect(words(4)).toContain('look whether air can get in');
    expect(words(-1, 'not vented')).toContain('less likely to hold the stern down');
  });

  it('nothing where nothing was measured', () => {
    expect(measuredWords({}, 'in')).toEqual([]);
    expect(measuredWords({ engine: { setback: inch(24) }, pocket: {} }, 'in')).toEqual([]);
  });
});
