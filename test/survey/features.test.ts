import { describe, expect, it } from 'vitest';

import { proposedVoids } from '../../src/survey/features.ts';
import type { HullFeature } from '../../src/survey/fold/hullOf.ts';
import { mm } from './fold/samples.ts';

const pocket: HullFeature = {
  id: 'pocket',
  feature: 'tab pocket',
  side: 'both',
  offsetFrom: mm(400),
  offsetTo: mm(550),
  stationFrom: mm(0),
  stationTo: mm(127),
};
const intake: HullFeature = {
  ...pocket,
  id: 'intake',
  feature: 'through-hull',
  side: 'centre',
  offsetFrom: mm(0),
  offsetTo: mm(60),
  stationFrom: mm(300),
  stationTo: mm(380),
  note: 'intake',
};
const stations = [0, 75, 127, 150, 300].map((at) => mm(at));

describe('proposedVoids', () => {
  it('proposes the stations on a feature, its edges included, and no other', () => {
    const proposed = proposedVoids([pocket], { side: 'port', offset: 400 }, stations);
    expect(proposed.map(({ station }) => station.mm)).toEqual([0, 75, 127]);
    expect(proposed[0]).toEqual({ station: mm(0), reason: 'tab pocket', features: ['pocket'] });
  });

  it('proposes nothing on a line beside the feature', () => {
    expect(proposedVoids([pocket], { side: 'port', offset: 399.9 }, stations)).toEqual([]);
    expect(proposedVoids([pocket], { side: 'starboard', offset: 550.1 }, stations)).toEqual([]);
  });

  it('proposes on the other side only what is on both', () => {
    const line = { side: 'starboard', offset: 450 } as const;
    expect(proposedVoids([pocket], line, stations)).toHaveLength(3);
    expect(proposedVoids([{ ...pocket, side: 'port' }], line, stations)).toEqual([]);
  });

  it('reaches from the keel to either side for a feature astride it, and says its note', () => {
    for (const side of ['port', 'centre', 'starboard'] as const) {
      const [proposed] = proposedVoids([intake], { side, offset: 0 }, stations);
      expect(proposed).toMatchObject({ reason: 'through-hull (intake)', station: { mm: 300 } });
    }
    expect(proposedVoids([intake], { side: 'port', offset: 61 }, stations)).toEqual([]);
  });

  it('names every feature under a station once', () => {
    const strake: HullFeature = { ...pocket, id: 'strake', feature: 'strake' };
    const twin: HullFeature = { ...strake, id: 'twin' };
    expect(proposedVoids([pocket, strake, twin], { side: 'port', offset: 450 }, [mm(75)])).toEqual([
      { station: mm(75), reason: 'tab pocket and strake', features: ['pocket', 'strake', 'twin'] },
    ]);
  });
});
