import { describe, expect, it } from 'vitest';
import { workPlan } from '../../../src/fairing/plan/workPlan.ts';
import type { PanelTarget } from '../../../src/fairing/panel/panelProgramme.ts';
import type { LinePlan } from '../../../src/fairing/plan/plan.ts';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { tiedPanels } from '../../../src/survey/panels/tiedPanels.ts';

const OFFSETS = [150, 300, 450, 600];
const STATIONS = Array.from({ length: 16 }, (_, i) => 100 * i);

type Surface = (x: number, y: number) => number;

/** A survey of a port panel as a CSV would bring it: every placement stands at an offset and a tilt of its own. */
function surveyOf(surface: Surface, diagonals = true) {
  const rows: string[] = [];
  const lay = (name: string, direction: string, places: readonly (readonly [number, number])[]) => {
    const tilt = 0.001 * (rows.length % 7);
    for (const [x, y] of places) {
      const gap = 9 + tilt * (x + y) - surface(x, y);
      rows.push(`port,${y},${x},${gap.toFixed(3)},${name},${direction}`);
    }
  };
  for (const y of OFFSETS)
    lay(
      '1',
      '',
      STATIONS.map((x) => [x, y] as const),
    );
  [100, 800, 1400].forEach((x, i) => {
    lay(
      String(i + 1),
      'athwart',
      OFFSETS.map((y) => [x, y] as const),
    );
  });
  if (diagonals) {
    lay(
      '1',
      'diagonal',
      OFFSETS.map((y, i) => [300 + 300 * i, y] as const),
    );
    lay(
      '2',
      'diagonal',
      OFFSETS.map((y, i) => [1200 - 300 * i, y] as const),
    );
  }
  const read = readCsv(
    [
      '# hull: Made up (invented)',
      '# tolerance: 1.5 mm over 1500 mm',
      '# read to: 0.1 mm',
      '# repeatability: 0.05 mm',
      'side,offset_mm,station_mm,gap_mm,placement,direction',
      ...rows,
    ].join('\n'),
  );
  if (!read.ok) throw new Error(JSON.stringify(read.faults.slice(0, 2)));
  return assess(read.survey);
}

/** Smooth, 4 mm deep near 500 mm on the two inner lines' middle, and nothing from 1000 mm on. */
const dent: Surface = (x, y) =>
  x >= 1000 ? 0 : -4 * Math.sin((Math.PI * x) / 1000) ** 2 * Math.exp(-(((y - 375) / 150) ** 2));
const twist: Surface = (x, y) => 4e-6 * (x - 1500) * (y - 375);

function planned(surface: Surface, target: PanelTarget, diagonals = true) {
  const all = surveyOf(surface, diagonals);
  const panel = { target, tied: tiedPanels(all) };
  return workPlan(all, { unit: 'mm', way: 'fill only', panel });
}

function isPlanned(plan: LinePlan): plan is Extract<LinePlan, { is: 'planned' }> {
  return plan.is === 'planned';
}

describe('a panel brought to one plane', () => {
  const plan = planned(dent, 'one plane');

  it('is worked on all its lines, filled by what the dent wants at each station', () => {
    const lines = plan.lines.filter(isPlanned);
    expect(lines.map(({ line }) => line.offset)).toEqual(OFFSETS);
    for (const { line, stations } of lines) {
      for (const station of stations) {
        if (station.is !== 'worked' || station.station > 1000) continue;
        const wanted = -dent(station.station, line.offset);
        expect(Math.abs(station.fill.exact - wanted)).toBeLessThan(3 * station.u + 0.15);
        expect(station.grind.exact).toBe(0);
      }
    }
  });

  it('says what it takes, with an interval that holds the volume of the dent between the lines that were read', () => {
    let volume = 0;
    for (let y = 75; y < 675; y += 5) {
      for (let x = 0; x < 1000; x += 5) volume -= 25 * dent(x + 2.5, y + 2.5);
    }
    const [side] = plan.sides;
    const { low, likely, high } = side.fill.volume ?? { low: NaN, likely: NaN, high: NaN };
    expect(low).toBeLessThan(likely);
    expect(likely).toBeLessThan(high);
    // Four lines carry the dent's breadth to about a tenth of it.
    expect(Math.abs(likely - volume) / volume).toBeLessThan(0.15);
    const alone = plan.lines.filter(isPlanned).map(({ amounts }) => {
      const range = amounts.fill.volume ?? { likely: NaN, high: NaN };
      return range.high - range.likely;
    });
    // What lines of a panel have in doubt together does not cancel as if each erred on its own.
    expect(high - likely).toBeGreaterThan(0.5 * Math.hypot(...alone));
  });

  it('is refused where no diagonal was laid, and where nothing ties the lines, with the way out', () => {
    const unseen = planned(dent, 'one plane', false).lines;
    for (const line of unseen) {
      expect(line).toMatchObject({ is: 'impossible', because: { limit: 'twist not known' } });
    }
    const all = surveyOf(dent);
    const tied = tiedPanels(all).map((panel) => ({
      ...panel,
      outcome: { ok: false, reason: 'not tied' } as const,
    }));
    const loose = workPlan(all, {
      unit: 'mm',
      way: 'fill only',
      panel: { target: 'one plane', tied },
    });
    const [, loosened] = loose.lines;
    if (loosened.is !== 'impossible') throw new Error('nothing ties it');
    expect(loosened.because.limit).toBe('lines not tied');
    expect(loosened.because.words).toMatch(
      /lay the straightedge across them, or work line by line/,
    );
  });
});

describe('a panel brought to straight buttocks', () => {
  it('is filled at its dent alone, though it is twisted; and needs no diagonal', () => {
    const twisted: Surface = (x, y) => dent(x, y) + twist(x, y);
    for (const diagonals of [true, false]) {
      const lines = planned(twisted, 'straight buttocks', diagonals).lines.filter(isPlanned);
      expect(lines).toHaveLength(4);
      for (const { line, stations } of lines) {
        for (const station of stations) {
          if (station.is !== 'worked' || station.station > 1000) continue;
          const wanted = -dent(station.station, line.offset);
          expect(Math.abs(station.fill.exact - wanted)).toBeLessThan(3 * station.u + 0.15);
        }
      }
    }
  });

  it('takes less than one plane where a panel is twisted', () => {
    const twisted: Surface = (x, y) => dent(x, y) + twist(x, y);
    const volume = (target: PanelTarget) =>
      planned(twisted, target).total.fill.volume?.likely ?? NaN;
    expect(volume('straight buttocks')).toBeLessThan(0.9 * volume('one plane'));
  });
});

it('leaves lines alone whose panel has nothing to be worked', () => {
  const plan = planned(() => 0, 'one plane');
  expect(plan.lines.map(({ is }) => is)).toEqual(Array(4).fill('nothing to do'));
});
