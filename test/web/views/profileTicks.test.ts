import { expect, test } from 'vitest';
import { heightTicks, stationTicks } from '../../../web/views/profileTicks.ts';

test('stations in inches go by the divisions of a tape, and never start aft of the transom', () => {
  const labels = (closest: number) =>
    stationTicks(-40, 60 * 25.4, closest, 'in').map((tick) => tick.label);
  expect(labels(6 * 25.4)).toEqual([
    '0',
    '6',
    '12',
    '18',
    '24',
    '30',
    '36',
    '42',
    '48',
    '54',
    '60',
  ]);
  expect(labels(8 * 25.4)).toEqual(['0', '12', '24', '36', '48', '60']);
});

test('a tick stands where its label says', () => {
  for (const { at, label } of stationTicks(100, 1500, 90, 'mm')) expect(at).toBe(Number(label));
  expect(heightTicks(-2, 2, 0.9, 'mm')).toEqual([
    { at: -2, label: '2' },
    { at: -1, label: '1' },
    { at: 0, label: '0' },
    { at: 1, label: '1' },
    { at: 2, label: '2' },
  ]);
});

test('heights in inches are fractions in lowest terms, no finer than 32nds', () => {
  const ticks = heightTicks(-25.4 / 16, 25.4 / 16, 0.001, 'in');
  expect(ticks.map((tick) => tick.label)).toEqual(['1/16', '1/32', '0', '1/32', '1/16']);
});
