import { describe, expect, it } from 'vitest';

import { supportTimeline } from '../../src/survey/supportTimeline.ts';

const trailer = { id: 'a', nth: 1, what: 'trailer', at: '2026-05-04T08:00:00+02:00' };
const stands = { id: 'b', nth: 2, what: 'stands', at: '2026-05-04T07:00:00Z' };

describe('supportTimeline', () => {
  it('lists what the hull stood on in its turn, whatever order the statements come in', () => {
    const timeline = supportTimeline([stands, trailer]);
    expect(timeline.events).toEqual([
      { what: 'trailer', at: trailer.at },
      { what: 'stands', at: stands.at },
    ]);
    expect([timeline.periodOf('a'), timeline.periodOf('b')]).toEqual([0, 1]);
    expect(timeline.periodOf('elsewhere')).toBeUndefined();
  });

  it('tells by the clock what stood at a time, across zones', () => {
    const { periodAt } = supportTimeline([trailer, stands]);
    expect(periodAt('2026-05-04T05:59:00Z')).toBeUndefined();
    expect(periodAt('2026-05-04T06:00:00Z')).toBe(0);
    expect(periodAt('2026-05-04T08:59:59+02:00')).toBe(0);
    expect(periodAt('2026-05-04T07:00:00Z')).toBe(1);
  });

  it('takes 16:39:57-08:00 for 00:39:57Z of the next day (RFC 3339, section 5.8)', () => {
    const { periodAt } = supportTimeline([{ ...trailer, at: '1996-12-20T00:39:57Z' }]);
    expect(periodAt('1996-12-19T16:39:57-08:00')).toBe(0);
    expect(periodAt('1996-12-19T16:39:56-08:00')).toBeUndefined();
  });

  it('does not tell where a time has no zone, or that of a support is not written', () => {
    expect(supportTimeline([trailer]).periodAt('2026-05-04T12:00:00')).toBeUndefined();
    const { periodAt } = supportTimeline([trailer, { id: 'b', nth: 2, what: 'stands' }]);
    expect(periodAt('2026-05-04T12:00:00Z')).toBeUndefined();
  });

  it('does not tell where the times written contradict the turns', () => {
    const { periodAt } = supportTimeline([
      { ...trailer, nth: 2 },
      { ...stands, nth: 1 },
    ]);
    expect(periodAt('2026-05-04T12:00:00Z')).toBeUndefined();
  });

  it('keeps two statements of the same turn apart, by the times written and then by their ids', () => {
    const both = [{ ...stands, nth: 1 }, trailer, { id: '0', nth: 1, what: 'blocks' }];
    expect(supportTimeline(both).events.map(({ what }) => what)).toEqual([
      'trailer',
      'stands',
      'blocks',
    ]);
  });
});
