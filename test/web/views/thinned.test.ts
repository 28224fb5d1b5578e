import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { readLog } from '../../../src/survey/log/readLog.ts';
import { countText } from '../../../web/views/countText.ts';
import { profileScale } from '../../../web/views/profileScale.ts';
import { profileTable } from '../../../web/views/profileTable.ts';
import { profileView } from '../../../web/views/profileView.ts';
import { madeLog } from '../../survey/log/madeLogs.ts';

const spikeAt = (rows: number, row: number, gap: string): string => {
  const lines = madeLog({ rows }).trimEnd().split('\n');
  lines[3 + row] = lines[3 + row].replace(/[^,]*$/, gap);
  return lines.join('\n');
};

describe('a log as it is drawn', () => {
  it('keeps a single high and a single low reading, on a phone and on paper', () => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 4800 }), fc.boolean(), (row, high) => {
        const text = spikeAt(5000, row, high ? '6.5' : '-0.02');
        const read = readLog(new TextEncoder().encode(text));
        if (read?.ok !== true) throw new Error('a log expected');
        const all = assess(read.survey);
        const [line] = all.lines;
        expect(line.points.length).toBeLessThanOrEqual(2000);
        const station = (1500 * row) / 4999;
        for (const size of [
          { width: 360, height: 240, unit: 'px' as const },
          { width: 1200, height: 500, unit: 'px' as const },
          { width: 180, height: 80, unit: 'mm' as const },
        ]) {
          const scale = profileScale([line], { limit: 1500, tolerance: 1.5 }, size);
          const view = profileView(line, all, { size, scale, unit: 'mm' });
          expect(view.readings.length + view.offPicture.length).toBeLessThanOrEqual(2000);
          const source = `row ${row + 4}`;
          const drawn = [...view.readings, ...view.offPicture].map(({ key }) => key.split('/')[0]);
          expect(drawn).toContain(source);
        }
        const rows = profileTable(line, 'mm').rows;
        expect(rows.length).toBeLessThanOrEqual(60);
        expect(rows.some((each) => Math.abs(each.station - station) < 0.01)).toBe(true);
      }),
      { seed: 20261125, numRuns: 20 },
    );
  });

  it('counts with a space between thousands', () => {
    expect([0, 999, 1000, 250_000, 1_000_000].map(countText)).toEqual([
      '0',
      '999',
      '1\u202f000',
      '250\u202f000',
      '1\u202f000\u202f000',
    ]);
  });
});
