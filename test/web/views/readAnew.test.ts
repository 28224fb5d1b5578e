import { expect, test } from 'vitest';
import type { Entry } from '../../../src/book/entry.ts';
import { readAnew } from '../../../web/views/readAnew.ts';
import { lastOwn } from '../../../web/views/lastOwn.ts';
import { layReach } from '../../../web/views/layReach.ts';

const SURVEY = 'cdefghjkmnpq';
const entry = (kind: string, nth: number, body: object, device = 'ours'): Entry => ({
  _id: `0123456789ab:${SURVEY}:00000000000${nth}-1`,
  ...{ v: 1, app: 'test', kind, body, device, by: 'A. N. Other', at: '2026-03-14T09:00:00Z' },
});
const typed = (mm: number) => ({ mm, text: String(mm) });

test('a reading stated anew keeps what was said with it, and strikes it', () => {
  const body = { placement: 'lay', station: typed(300), gap: typed(2), look: 2, note: 'wet' };
  const former = entry('reading', 1, body);
  const look = {
    text: '2',
    reading: { station: typed(300), gap: typed(2), look: 2, source: former._id },
  };
  const draft = readAnew([former], look, 'lay', { look: 1 }, 'of the next station');
  expect(draft).toMatchObject({ kind: 'reading', why: 'of the next station' });
  expect(draft.body).toEqual({ ...body, look: 1 });
  expect(draft.strikes).toEqual([{ entry: former._id }]);
});

test('a row of a file is stated anew as the table shows it, its line among that, and the row is struck', () => {
  const former = entry('import', 1, {});
  const reading = { station: typed(300), gap: typed(2), look: 1, source: `${former._id}#7` };
  const look = { text: '2', reading: { ...reading, line: 'line-1' } };
  const draft = readAnew([former], look, 'lay', { note: 'looked at' }, 'looked at');
  expect(draft.body).toEqual({
    ...{ placement: 'lay', line: 'line-1', station: typed(300), gap: typed(2), look: 1 },
    note: 'looked at',
  });
  expect(draft.strikes).toEqual([{ entry: former._id, row: 7 }]);
});

test('the last of a device is of the kinds and the survey that are asked for, and of no other device', () => {
  const own = [entry('reading', 1, {}), entry('void', 3, {}), entry('placement', 5, {})];
  const others = entry('reading', 7, {}, 'theirs');
  const elsewhere = { ...entry('void', 8, {}), _id: '0123456789ab:rstvwxyz0123:000000000008-1' };
  const last = (kinds: readonly string[]) =>
    lastOwn([...own, others, elsewhere].reverse(), SURVEY, kinds, (d) => d === 'ours');
  expect(last(['reading', 'void', 'later'])).toBe(own[1]);
  expect(last(['placement'])).toBe(own[2]);
  expect(last(['note'])).toBeUndefined();
});

test('a laying about to be stated reaches as far as its edge, in the hull’s words where it gives none', () => {
  const base = { line: 'l', name: '1', repeat: 1, aftEnd: typed(0) } as const;
  const edges = [{ id: 'edge', name: 'long edge', length: typed(2400), checks: [] }];
  const body = { ...base, held: 'blocks', block: typed(20), edge: 'edge' } as const;
  const stated = edges as unknown as Parameters<typeof layReach>[1];
  expect(layReach(body, stated)).toEqual({
    held: 'blocks',
    ...{ block: 20, edgeLength: 2400, aftEnd: 0 },
  });
  expect(layReach({ ...body, edgeLength: typed(1800) }, stated)).toMatchObject({
    edgeLength: 1800,
  });
  expect(layReach({ ...base, held: 'resting' }, stated)).toEqual({ held: 'resting', aftEnd: 0 });
  expect(layReach(undefined, stated)).toEqual({});
});
