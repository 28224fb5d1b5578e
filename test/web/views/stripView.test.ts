import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stripView, type StripFrom } from '../../../web/views/stripView.ts';

const FROM: StripFrom = {
  name: 'P18in',
  where: 'PORT, 18 in from the KEEL',
  side: 'port',
  to: 36 * 25.4,
  marks: [0, 6, 8, 36].map((inches) => ({
    station: inches * 25.4,
    text: `${inches} in`,
    fill: '1/8 in',
  })),
  unit: 'in',
};

describe('a full-size strip', () => {
  it('is cut into bands of 8 in, three on a page, each mark once', () => {
    const { count, pages } = stripView(FROM);
    expect(count).toBe(5);
    expect(pages.map((bands) => bands.length)).toEqual([3, 2]);
    const bands = pages.flat();
    expect(bands.map(({ marks }) => marks.map(({ text }) => text))).toEqual([
      ['0 in', '6 in'],
      ['8 in'],
      [],
      [],
      ['36 in'],
    ]);
    expect(bands.map(({ from, to }) => [from, to])[0]).toEqual(['TRANSOM', '8 in']);
    expect(bands.map(({ goesOn }) => goesOn)).toEqual([true, true, true, true, false]);
  });

  it('has the keel to the left of a port line and to the right of a starboard line, as seen from below', () => {
    expect(stripView(FROM).keel).toBe('left');
    expect(stripView({ ...FROM, side: 'starboard' }).keel).toBe('right');
    expect(stripView({ ...FROM, side: 'centre' }).keel).toBeUndefined();
  });

  it('shows every station at its true distance from the transom, whatever the bands', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('mm' as const, 'in' as const),
        fc.uniqueArray(fc.integer({ min: 0, max: 2000 }), { minLength: 1, maxLength: 30 }),
        (unit, stations) => {
          const to = Math.max(1, ...stations);
          const marks = stations.map((station) => ({ station, text: `${station}` }));
          const strip = stripView({ ...FROM, to, marks, unit });
          const foot = strip.flap + strip.length;
          const shown = strip.pages
            .flat()
            .flatMap((band) =>
              band.marks.map(({ y }) => (band.number - 1) * strip.length + foot - y),
            );
          expect(shown.length).toBe(stations.length);
          [...stations]
            .sort((a, b) => a - b)
            .forEach((station, i) => expect(shown[i]).toBeCloseTo(station, 9));
        },
      ),
      { seed: 20261125 },
    );
  });

  it('never sets two marks’ words closer than they are tall', () => {
    const marks = [0, 3, 6, 9, 12].map((station) => ({ station, text: `${station} mm` }));
    const [band] = stripView({ ...FROM, unit: 'mm', to: 200, marks }).pages.flat();
    const at = band.marks.map(({ textY }) => textY);
    for (let i = 1; i < at.length; i++) expect(at[i - 1] - at[i]).toBeGreaterThanOrEqual(9.5);
  });

  it('must have a length', () => {
    expect(() => stripView({ ...FROM, to: 0 })).toThrow(RangeError);
  });
});
