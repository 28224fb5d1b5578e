import { median } from 'simple-statistics';
import { compareWays } from '../src/fairing/plan/compareWays.ts';
import { workPlan } from '../src/fairing/plan/workPlan.ts';
import { assess } from '../src/survey/assess.ts';
import type { Line, Survey } from '../src/survey/survey.ts';

/** Measures; asserts nothing. Medians of 15 runs after 5 to warm up. */
const RUNS = 15;

function survey(lines: number, stations: number): Survey {
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

function time(what: string, run: () => void): void {
  for (let i = 0; i < 5; i++) run();
  const times = Array.from({ length: RUNS }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  process.stdout.write(
    `${what}: median ${median(times).toFixed(1)} ms (${Math.min(...times).toFixed(1)} to ${Math.max(...times).toFixed(1)})\n`,
  );
}

const twelve = survey(12, 25);
time('12 lines by 25 stations, tolerance length as long as the lines', () => {
  assess(twelve, { over: 1500 });
});
time('the same, tolerance length 900 of 1500 mm', () => {
  assess(twelve, { over: 900 });
});
time('1 line by 12 stations', () => {
  assess(survey(1, 12));
});
const assessed = assess(twelve, { over: 1500 });
const also = twelve.lines.map(({ id }) => id);
time('figures of the work on 12 lines by 25 stations, filled, ground and least work', () => {
  compareWays(assessed, { unit: 'mm', grindLimit: 9, also });
});
time('a whole plan of them, filled, with each line judged as it will be', () => {
  workPlan(assessed, { unit: 'mm', way: 'fill only', also });
});
