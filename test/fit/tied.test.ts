import { describe, expect, it } from 'vitest';
import { tiedGroups, type PlacementReadings } from '../../src/fit/tied.ts';

const at = (...x: number[]): PlacementReadings => ({ x, gap: x.map(() => 0), u: x.map(() => 1) });

describe('placements', () => {
  it('are tied by two shared stations, not by one, which fixes an offset but no tilt', () => {
    expect(tiedGroups([at(0, 100, 200), at(100, 200, 300)], 1)).toEqual([[0, 1]]);
    expect(tiedGroups([at(0, 100, 200), at(200, 300, 400)], 1)).toEqual([[0], [1]]);
  });

  it('are tied through others, whatever their order', () => {
    const chain = [
      at(0, 100, 200),
      at(600, 700, 800),
      at(400, 500, 600, 700),
      at(100, 200, 400, 500),
    ];
    expect(tiedGroups(chain, 1)).toEqual([[0, 1, 2, 3]]);
  });

  it('are tied to a group when its members together share the two stations', () => {
    const group = [at(0, 100, 200), at(100, 200, 300), at(0, 300, 500)];
    expect(tiedGroups(group, 1)).toEqual([[0, 1, 2]]);
  });

  it('share a station when both are read within the same pencil mark', () => {
    expect(tiedGroups([at(0, 100, 200.2), at(100.3, 199.9, 300)], 1)).toEqual([[0, 1]]);
    expect(tiedGroups([at(0, 100, 203), at(100, 199, 300)], 1)).toEqual([[0], [1]]);
  });

  it('share a station when they stand as near as the caller says', () => {
    const two = [at(0, 100, 200), at(102, 198, 300)];
    expect(tiedGroups(two, 10)).toEqual([[0, 1]]);
    expect(tiedGroups(two, 0.5)).toEqual([[0], [1]]);
  });

  it('with a station twice do not count it twice', () => {
    expect(tiedGroups([at(0, 100, 100), at(100, 100, 300)], 1)).toEqual([[0], [1]]);
  });

  it('are no groups when there are none', () => {
    expect(tiedGroups([], 1)).toEqual([]);
  });
});
