import type { Line, Survey } from '../src/survey/survey.ts';

/** A survey by hand, lines of several depths. */
export function handSurvey(lines: number, stations: number): Survey {
  return {
    conditions: {},
    support: [],
    workUnit: 'mm',
    kind: 'hand',
    repeatability: 0.1,
    lines: Array.from({ length: lines }, (_, l): Line => {
      const depth = [0.1, 0.8, 2.5, 4][l % 4];
      return {
        id: `L${l}`,
        name: `L${l}`,
        side: l % 2 === 0 ? 'port' : 'starboard',
        offset: 200 + 100 * l,
        placements: [
          {
            id: `L${l}/1`,
            name: '1',
            repeat: 1,
            held: 'resting',
            division: 0.1,
            voids: [],
            later: [],
            readings: Array.from({ length: stations }, (_, i) => {
              const x = (1500 * i) / (stations - 1);
              const wave = 0.1 * Math.sin(12.9898 * (i + 1) * (l + 1));
              const gap = Math.max(
                0,
                depth * Math.max(0, Math.cos((Math.PI * (x - 500)) / 900)) + wave,
              );
              return {
                station: { mm: x, text: String(x) },
                gap: { mm: gap, text: gap.toFixed(1) },
                look: 1,
                source: `row ${i}`,
              };
            }),
          },
        ],
      };
    }),
  };
}
