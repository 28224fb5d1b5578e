import { expect, test } from 'vitest';
import { profileTable, stationText, surfaceAt } from '../../../web/views/profileTable.ts';
import { fromCsv, lineNamed, ODDITIES, sample } from './pictured.ts';

const odd = fromCsv(ODDITIES);

test('every reading, void and later look has a row, from aft forward', () => {
  const { rows } = profileTable(lineNamed(odd, 'S450'), 'mm');
  expect(rows.map((r) => r.station)).toEqual([
    0, 100, 200, 300, 300, 400, 500, 600, 700, 900, 1000, 1200, 1300, 1400,
  ]);
  expect(rows.map((r) => r.state).filter((s) => s === 'void')).toHaveLength(1);
  expect(rows[4].remark).toBe('look 2');
});

test('a void has no gap, height or section, and a contact of 0 has its 0', () => {
  const { rows } = profileTable(lineNamed(odd, 'S450'), 'mm');
  const empty = rows[5];
  expect([empty.gapText, empty.read, empty.surface, empty.section]).toEqual(
    Array.from({ length: 4 }, () => undefined),
  );
  expect(empty.remark).toBe('void: through-hull');
  expect(rows[1].gapText).toBe('0');
});

test('ahead of the limit a reading has its height, and no surface or section', () => {
  const ahead = profileTable(lineNamed(odd, 'S450'), 'mm').rows[12];
  expect(ahead.read?.way).toBe('hollow');
  expect([ahead.surface, ahead.section]).toEqual([undefined, undefined]);
  expect(ahead.remark).toBe('ahead of the limit, not judged');
});

test('heights are unsigned with a word for their side, which is the side of the height', () => {
  const line = lineNamed(sample('inches-wide'), 'P30in');
  const { rows } = profileTable(line, 'in');
  rows.forEach((row, i) => {
    expect(row.read?.size).not.toContain('-');
    const z = Number(line.points[i].z);
    if (row.read?.way !== 'level') expect(row.read?.way).toBe(z > 0 ? 'proud' : 'hollow');
  });
  expect(rows.some((r) => r.read?.way === 'hollow')).toBe(true);
  expect(rows.some((r) => r.read?.way === 'proud')).toBe(true);
});

test('repeats and placements are told apart where there are several', () => {
  const { rows } = profileTable(lineNamed(sample('two-placements'), 'P400'), 'mm');
  const remarks = new Set(rows.map((r) => r.remark.replace(/, ahead.*/, '')));
  expect([...remarks].sort()).toEqual([
    'placement 1',
    'placement 1, laid again (2)',
    'placement 1, laid again (2), void: through-hull',
    'placement 1, void: through-hull',
    'placement 2',
  ]);
});

test('stations read as on a tape', () => {
  expect(stationText(457.2, 'in')).toBe('18');
  expect(stationText(3.175, 'in')).toBe('1/8');
  expect(stationText(1200, 'mm')).toBe('1200');
  expect(stationText(12.5, 'mm')).toBe('12.5');
});

test('the surface between two places lies on the line between them, and beyond the ends nowhere', () => {
  const profile = [
    { x: 0, z: 1, u: 0.1 },
    { x: 10, z: 3, u: 0.3 },
  ];
  expect(surfaceAt(profile, 2.5)).toEqual({ z: 1.5, u: expect.closeTo(0.15, 12) as number });
  expect(surfaceAt(profile, 0)?.z).toBe(1);
  expect(surfaceAt(profile, 10)?.z).toBe(3);
  expect(surfaceAt(profile, -1)).toBeUndefined();
  expect(surfaceAt(profile, 10.1)).toBeUndefined();
  expect(surfaceAt([], 0)).toBeUndefined();
});
