import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compare } from '../../../src/seasons/compare.ts';
import { toldComparison } from '../../../src/seasons/told.ts';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { tiedPanels } from '../../../src/survey/panels/tiedPanels.ts';
import { changeCaption } from '../../../web/views/surfaceCaption.ts';
import { onPaper, tiedOnPaper } from '../../../web/views/surfaceOnPaper.ts';
import { OF_A_CHANGE } from '../../../web/views/surfaceView.ts';

const STORY = readFileSync(
  new URL('../../../fixtures/samples/stories/twisted-panel.csv', import.meta.url),
  'utf8',
);

function assessed(text: string) {
  const found = readCsv(text);
  if (!found.ok) throw new Error('the story can be read');
  return assess(found.survey);
}

describe('the map of a surface on paper', () => {
  const all = assessed(STORY);

  it('shows both sides in one picture from below, port where whoever lies under it has it, within the paper', () => {
    const [map, ...others] = tiedOnPaper(tiedPanels(all), 'mm');
    expect(others).toEqual([]);
    const { view, caption } = map;
    expect(view.title).toBe('The bottom seen from below');
    const placeOf = (name: string) => view.sides.find(({ text }) => text === name)?.x;
    expect(placeOf('PORT')).toBeGreaterThan(view.keel);
    expect(placeOf('STARBOARD')).toBeLessThan(view.keel);
    expect(view.width).toBeLessThanOrEqual(184);
    expect(view.height).toBeLessThan(200);
    expect(caption).toMatch(/^Heights off the best plane of each side\. An unbroken edge/);
    expect(caption).not.toMatch(/Heavy broken stroke/);
  });

  it('has none where nothing ties the lines, and says where a twist was left out', () => {
    const keep = (drop: RegExp) => STORY.split('\r\n').filter((row) => !drop.test(row));
    const loose = assessed(keep(/,(diagonal|athwart)$/).join('\r\n'));
    expect(tiedOnPaper(tiedPanels(loose), 'mm')).toEqual([]);
    const athwart = assessed(keep(/,diagonal$/).join('\r\n'));
    const [map] = tiedOnPaper(tiedPanels(athwart), 'in');
    expect(map.caption).toMatch(/a twist left out, for which no diagonal was laid/);
  });

  it('says of two surveys that read the same that nothing differs', () => {
    const { panels } = toldComparison(compare(all, all), 'mm');
    const [{ view, caption }] = onPaper(panels, 'mm', changeCaption, OF_A_CHANGE);
    expect(view.title).toBe('What changed seen from below');
    expect(view.bands).toEqual([]);
    expect(view.extremes).toEqual([]);
    expect(caption).toMatch(/Nothing differs by \d/);
  });
});
