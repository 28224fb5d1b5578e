import { describe, expect, it } from 'vitest';

import {
  carriedAgain,
  carries,
  keepSharing,
  readSharing,
  withoutHull,
  type SharingSettings,
} from '../../../web/store/sharing/settings.ts';

const HULL = '0123456789ab';
const ALL: SharingSettings = {
  server: 'https://server.example:6984',
  database: 'yard',
  user: 'hand',
  password: 'a word',
  carry: { what: 'all' },
};
const CHOSEN: SharingSettings = { ...ALL, carry: { what: 'chosen', hulls: [], season: false } };
const removed = { hull: HULL, name: 'Sea Lark (invented)' };
const takes = (settings: SharingSettings): boolean => carries(settings, HULL, 0, 1970);

function place(): Pick<Storage, 'getItem' | 'setItem' | 'removeItem'> {
  const kept = new Map<string, string>();
  return {
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
    removeItem: (key) => void kept.delete(key),
  };
}

describe('the hulls that a device takes from a server', () => {
  it('are all but those removed from it, until they are to be carried again', () => {
    expect(takes(ALL)).toBe(true);
    const without = withoutHull(ALL, removed);
    expect(takes(without)).toBe(false);
    expect(takes(carriedAgain(without, HULL))).toBe(true);
  });

  it('leave a removed hull out where hulls are chosen, and count it among the chosen afterwards', () => {
    const season: SharingSettings = {
      ...ALL,
      carry: { what: 'chosen', hulls: [HULL], season: true },
    };
    expect(takes(season)).toBe(true);
    expect(takes(withoutHull(season, removed))).toBe(false);
    expect(takes(CHOSEN)).toBe(false);
    expect(takes(carriedAgain(withoutHull(CHOSEN, removed), HULL))).toBe(true);
  });
});

describe('settings that are kept', () => {
  it('are read as they were kept, with removed hulls and without, once each', () => {
    const twice = withoutHull(withoutHull(ALL, removed), removed);
    expect(twice.without).toEqual([removed]);
    for (const settings of [ALL, CHOSEN, twice]) {
      const where = place();
      keepSharing(where, settings);
      expect(readSharing(where)).toEqual(settings);
    }
  });
});
