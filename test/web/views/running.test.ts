import { readFileSync } from 'node:fs';
import { describe, expect, test, vi } from 'vitest';
import { readBoat } from '../../../src/running/file/readBoat.ts';
import { SPEED_UNITS } from '../../../src/running/speedUnits.ts';
import { whatIf } from '../../../src/running/whatIf/whatIf.ts';
import { particularRows, tailWords } from '../../../web/views/particularsView.ts';
import { particularsOf } from '../../../src/running/fold/particularsOf.ts';
import { runningPlot, runningScale } from '../../../web/views/runningPlot.ts';
import { speedsBetween } from '../../../web/views/runningSpeeds.ts';
import { caseRows, reasonsIn, showForce, speedRows } from '../../../web/views/runningTables.ts';
import { mm } from '../../survey/fold/samples.ts';

vi.setConfig({ testTimeout: 60_000 });

const read = readBoat(
  JSON.parse(
    readFileSync(new URL('../../../fixtures/samples/tern-reach.json', import.meta.url), 'utf8'),
  ),
);
if (!read.ok) throw new Error(JSON.stringify(read.faults));
const knots = (speed: number) => speed * SPEED_UNITS.kn;
const found = whatIf(read.boat, [8, 20, 24, 28, 34, 40].map(knots), knots(28), 60);
if (!found.ok) throw new Error(found.reason);
const units = { length: 'in', mass: 'lb', speed: 'kn' } as const;
const [now, fair] = found.cases;
const size = { width: 720, height: 360, unit: 'px' } as const;
const scale = runningScale(found.cases);

describe('trim against speed, drawn', () => {
  const view = runningPlot(now, { size, scale, unit: 'kn', at: found.at });

  test('has a mark for each speed that is told, of what it stands for, and a cross for each that is not', () => {
    expect(view.marks.map(({ is }) => is)).toEqual(
      now.curve.filter(({ runs }) => runs.ok).map(({ stability }) => stability),
    );
    expect(view.blanks).toHaveLength(now.curve.filter(({ runs }) => !runs.ok).length);
    expect(view.blanks.length).toBeGreaterThan(0);
  });

  test('stays within the plot, and never draws what is no number', () => {
    const { plot } = view;
    for (const { x, y } of view.marks) {
      expect(x).toBeGreaterThanOrEqual(plot.x);
      expect(x).toBeLessThanOrEqual(plot.x + plot.width);
      expect(y).toBeGreaterThanOrEqual(plot.y);
      expect(y).toBeLessThanOrEqual(plot.y + plot.height);
    }
    expect(JSON.stringify(view)).not.toMatch(/NaN|null/);
  });

  test('breaks the lines where nothing is told', () => {
    const gap = { ...now, curve: now.curve.map((one, i) => (i === 2 ? now.curve[0] : one)) };
    expect(
      runningPlot(gap, { size, scale, unit: 'kn', at: found.at }).trim.match(/M/g),
    ).toHaveLength(2);
  });

  test('shows the boat as now beside another case only, at one scale', () => {
    expect(view.asNow).toBeUndefined();
    const other = runningPlot(fair, { size, scale, unit: 'kn', at: found.at, now });
    expect(other.asNow).toBe(view.trim);
    expect(other.trims).toEqual(view.trims);
  });

  test('says in words what it shows, in the unit that was chosen', () => {
    expect(view.summary).toMatch(
      /^Trim against speed, as now: from 7\.7° at 20 kn to .*near the limit at 20 kn, .*Porpoises: from/,
    );
    const miles = runningPlot(now, { size, scale, unit: 'mph', at: found.at });
    expect(miles.at.label).toBe('32 mph');
    expect(miles.trim).toBe(view.trim);
  });
});

describe('the tables beside', () => {
  test('have a reason in the place of what is not told', () => {
    const rows = speedRows(now, units);
    expect(rows[0]).toMatchObject({ speed: '8 kn', trim: '–', stands: 'not told', drag: '–' });
    expect(rows[0].reason).not.toBe('');
    expect(reasonsIn(found)).toContain(rows[0].reason);
  });

  test('have trim, limit, wetted lengths, draft and drag where they are', () => {
    const row = speedRows(now, units).find(({ speed }) => speed === '28 kn');
    expect(row).toMatchObject({ stands: 'near the limit', reason: '' });
    expect(row?.trim).toMatch(/^4\.9° \(\d\.\d° to \d\.\d°\)$/);
    expect(row?.keel).toMatch(/^\d+( 1\/2)? in$/);
    expect(row?.drag).toMatch(/^\d+0 lbf$/);
  });

  test('set the cases side by side with what each changes', () => {
    const rows = caseRows(found, units);
    expect(rows.map(({ name, change }) => [name, change[0]])).toEqual([
      ['As now', undefined],
      ['Bottom made fair', '+'],
      ['Weight forward', '−'],
      ['Both', '−'],
      ['As proposed', '−'],
    ]);
  });

  // 1 lbf = 4.4482216152605 N: NIST SP 811 (2008), appendix B.8.
  test('tell a force to two figures', () => {
    expect([showForce(4448.22, 'lb'), showForce(3781, 'kg'), showForce(0, 'kg')]).toEqual([
      '1000 lbf',
      '3800 N',
      '0 N',
    ]);
  });
});

describe('the speeds that are looked at', () => {
  test('are whole in the unit that was chosen, with both ends', () => {
    const mph = speedsBetween(knots(16), knots(40), 'mph').map((v) => v / SPEED_UNITS.mph);
    expect(mph.slice(1, 4).map((v) => Number(v.toFixed(9)))).toEqual([20, 22, 24]);
    expect(mph[0]).toBeCloseTo(18.41, 2);
    expect(speedsBetween(knots(16), knots(40), 'kn')).toHaveLength(13);
  });

  test('are never so many that one waits, and must run upwards', () => {
    expect(speedsBetween(knots(5), knots(90), 'km/h').length).toBeLessThanOrEqual(17);
    expect(() => speedsBetween(5, 5, 'kn')).toThrow(RangeError);
  });
});

describe('what is known of the hull', () => {
  test('tells what is needed, taken from the hull’s page, or a house default', () => {
    const says = (of: Parameters<typeof particularsOf>[1]) =>
      particularRows(particularsOf([], of), 'mm').map((row) => row.says);
    expect(says({})[0]).toBe('needed before running trim can be told');
    expect(says({ beamAtChine: mm(2000) })[0]).toBe('2000 mm, from the hull’s page');
    expect(says({})[4]).toMatch(/house default/);
  });

  test('tells the measured tail with its doubt, which way it turns, and whose it is', () => {
    const tail = { angle: -0.6, u: 0.1, over: 300 };
    expect(tailWords({ tail, lines: ['P18in'], without: ['S18in'] }, '2026-03-14', 'mm')).toBe(
      'Tail angle over the last 300 mm, mean of P18in: −0.6° ± 0.2°, turned up (like a rocker). From the survey of 2026-03-14; not told by S18in.',
    );
    expect(tailWords({ lines: [], without: ['P'] }, '2026', 'mm')).toMatch(/gives no tail angle/);
    expect(tailWords(undefined, undefined, 'mm')).toMatch(/^No survey with readings/);
  });
});
