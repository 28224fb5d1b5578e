import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { writeCsv } from '../../../src/survey/csv/writeCsv.ts';
import { entriesFromSurvey, whyNoEntries } from '../../../src/survey/entriesFromSurvey.ts';
import { assessPanels } from '../../../src/survey/panels/assessPanels.ts';
import { panelWords, sidesSentence } from '../../../src/survey/panels/panelWords.ts';
import { surfaceFrom } from '../../../src/survey/panels/surfaceFrom.ts';
import { panelsOf } from '../../../src/survey/panels/panelsOf.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { entriesOf, folded } from '../fold/samples.ts';

const STORY = readFileSync(
  new URL('../../../fixtures/samples/stories/twisted-panel.csv', import.meta.url),
  'utf8',
);

function read(text: string): Survey {
  const found = readCsv(text);
  if (!found.ok) throw new Error(JSON.stringify(found.faults.slice(0, 3)));
  return found.survey;
}

function rowsWithout(drop: (row: string) => boolean): Survey {
  return read(
    STORY.split('\r\n')
      .filter((row) => !drop(row))
      .join('\r\n'),
  );
}

describe('the story of the twisted panel (invented)', () => {
  const survey = read(STORY);
  const all = assess(survey);
  const found = assessPanels(all);
  const [port, starboard] = found.panels;

  it('is fair on every line', () => {
    const verdicts = all.lines.map(({ outcome }) => outcome.ok && outcome.judgement.verdict);
    expect(verdicts).toEqual(Array(8).fill(['fair']));
  });

  it('is twisted on port as a surface, by its 5 mm within the uncertainty, and not proven so on starboard', () => {
    if (!port.outcome.ok || !starboard.outcome.ok) throw new Error('both are tied');
    const { twist, areas, misclosure } = port.outcome;
    expect(twist?.verdict).toBe('twisted');
    expect(Math.abs((twist?.corner ?? NaN) - 5)).toBeLessThan(2 * (twist?.cornerU ?? NaN));
    expect(areas).toMatchObject({ verdict: 'fair', areas: [] });
    expect(misclosure).toMatchObject({ dof: 5, closes: true });
    expect(starboard.outcome.twist?.verdict).not.toBe('twisted');
  });

  it('leads to the stands first and to the structure then, never to filler', () => {
    const words = panelWords(port, all);
    expect(words.word).toBe('Twisted');
    expect(words.where).toBe('port, lines P150, P300, P450 and P600');
    expect(words.findings[0]).toMatch(
      /^On the port side the outer line turns towards the water going forward by 0\.2\d° ± 0\.\d+°/,
    );
    expect(words.next[0]).toMatch(/^Fill nothing yet: one stand too high/);
    expect(words.next[1]).toMatch(/qualified marine surveyor/);
    expect(words.closure).toMatch(/^The placements close: 5 independent checks/);
  });

  it('has a map as wide as the panel, flat but for the twist', () => {
    if (!port.outcome.ok) throw new Error('tied');
    const map = port.outcome.map();
    expect([map.y[0], map.y[map.y.length - 1]]).toEqual([150, 600]);
    expect(map.range.size).toBeGreaterThan(2);
    expect(map.blank.every((b) => b === 0)).toBe(true);
  });

  it('compares port with starboard on the lines that answer to each other', () => {
    expect(found.sides?.lines.map(([p, s]) => `${p.name} ${s.name}`)).toEqual([
      'P150 S150',
      'P300 S300',
      'P450 S450',
      'P600 S600',
    ]);
    expect(sidesSentence(found, 'mm')).toMatch(
      /^(Port and starboard|Whether port and starboard) .* Nothing ties the two sides to one another, since no straightedge lies along both panels of a vee/,
    );
    expect(sidesSentence({ panels: found.panels }, 'mm')).toBe('');
  });

  it('says that a twist cannot be seen where the diagonals are left out, and asks for one', () => {
    const without = assess(rowsWithout((row) => row.endsWith(',diagonal')));
    const [panel] = assessPanels(without).panels;
    if (!panel.outcome.ok) throw new Error('tied');
    expect(panel.outcome.panel.datum).toBe('plane and twist');
    expect(panel.outcome.twist).toBeUndefined();
    const words = panelWords(panel, without);
    expect(words.word).toBe('Fair but for a twist nobody looked for');
    expect(words.findings[0]).toMatch(/lies flat on a panel that is only twisted/);
    expect(words.next[0]).toMatch(/on the diagonal from \d+ mm on the inner line/);
  });

  it('says that lines float where nothing was laid across, and what the least is that ties them', () => {
    const without = assess(rowsWithout((row) => /,(diagonal|athwart)$/.test(row)));
    const [panel] = assessPanels(without).panels;
    expect(panel.outcome).toEqual({ ok: false, reason: 'not crossed' });
    const words = panelWords(panel, without);
    expect(words.word).toBe('Not one surface');
    expect(words.findings[0]).toMatch(/each line floats at a height and tilt of its own/);
    expect(words.next[0]).toMatch(/athwart at two stations or more.*on one diagonal/);
  });

  it('has a table of its placements across, each with its checks, and points out the one that is out of line', () => {
    const wrong = read(STORY.replace(/^(port,300,800,)[\d.]+(,2,athwart)/m, '$15$2'));
    const [amiss] = surfaceFrom(assess(wrong), 'mm').panels;
    expect(amiss.closure.map(({ name, lies, says }) => [name, lies, says])).toEqual([
      ['1', 'athwart at 100 mm', expect.any(String)],
      ['2', 'athwart at 800 mm', 'out of line, lay it again'],
      ['3', 'athwart at 1400 mm', expect.any(String)],
      [
        '1',
        expect.stringMatching(/^diagonal, \d+ mm on P150 to \d+ mm on P600$/),
        expect.any(String),
      ],
      [
        '2',
        expect.stringMatching(/^diagonal, \d+ mm on P150 to \d+ mm on P600$/),
        expect.any(String),
      ],
    ]);
    const [whole, other] = surfaceFrom(all, 'mm').panels;
    expect(whole.closure.map(({ says }) => says)).toEqual(Array(5).fill('fits'));
    expect(whole.next).toBeUndefined();
    expect(other.words.next[0]).toMatch(
      /on the diagonal from .*: that helps most, and the fourth corner would be known to ± [\d.]+ mm instead of/,
    );
    expect(other.next?.inner).not.toBe(other.next?.outer);
  });

  it('points out a placement that does not fit', () => {
    const wrong = read(STORY.replace(/^(port,300,800,)[\d.]+(,2,athwart)/m, '$15$2'));
    const all = assess(wrong);
    const [panel] = assessPanels(all).panels;
    expect(panelWords(panel, all).closure).toMatch(
      /do not close: .* without placement 2, athwart, the rest close/,
    );
  });

  it('is left as it was by a support that moved: what was laid before and after is never tied', () => {
    const moved: Survey = {
      ...survey,
      across: survey.across?.map((placement) => ({ ...placement, supportPeriod: 1 })) ?? [],
    };
    expect(panelsOf(moved).map(({ across }) => across.length)).toEqual([0, 0]);
  });
});

describe('placements across in CSV', () => {
  it('come in with their lines, apart from the placements along', () => {
    const { across, lines } = read(STORY);
    expect(across?.map(({ id }) => id)).toEqual([
      'port/athwart 1/1',
      'port/athwart 2/1',
      'port/athwart 3/1',
      'port/diagonal 1/1',
      'port/diagonal 2/1',
      'starboard/athwart 1/1',
      'starboard/athwart 2/1',
      'starboard/athwart 3/1',
      'starboard/diagonal 1/1',
      'starboard/diagonal 2/1',
    ]);
    expect(across?.[3].readings.map(({ line, station }) => [line, station.mm])).toEqual([
      ['P150', 200],
      ['P300', 600],
      ['P450', 1000],
      ['P600', 1400],
    ]);
    expect(lines.every(({ placements }) => placements.length === 1)).toBe(true);
  });

  it('go out and come in again the same', () => {
    const survey = read(STORY);
    const again = read(writeCsv(survey));
    const bare = (s: Survey) =>
      JSON.parse(
        JSON.stringify(s, (key, value: unknown) => (key === 'source' ? 0 : value)),
      ) as unknown;
    expect(bare(again)).toEqual(bare(survey));
  });

  it('are kept as entries: a survey that has them is assessed alike from the record', () => {
    const survey = read(STORY);
    expect(whyNoEntries(survey)).toBeUndefined();
    const kept = folded(entriesOf(entriesFromSurvey(survey)));
    expect([...kept.setAside, ...kept.disagreements]).toEqual([]);
    expect(kept.survey.across?.map(({ readings }) => readings.length)).toEqual(
      survey.across?.map(({ readings }) => readings.length),
    );
    const figures = (of: Survey) =>
      assessPanels(assess(of)).panels.map(({ outcome }) =>
        outcome.ok ? [outcome.twist?.corner, outcome.misclosure] : outcome.reason,
      );
    expect(figures(kept.survey)).toEqual(figures(survey));
  });

  it('leave a file without them as it was', () => {
    const survey = rowsWithout((row) => /,(diagonal|athwart)$/.test(row));
    expect(survey.across).toBeUndefined();
    expect(writeCsv(survey)).not.toMatch(/direction/);
  });

  it.each([
    ['a direction that is none', 'port,150,100,0,1,sideways', 'direction'],
    [
      'athwart at two stations',
      'port,150,100,0,9,athwart\r\nport,300,400,0,9,athwart',
      'direction',
    ],
    ['a placement across the keel', 'centre,0,100,0,9,athwart', 'side'],
  ])('refuse %s', (_, row, column) => {
    const found = readCsv(`side,offset_mm,station_mm,gap_mm,placement,direction\r\n${row}\r\n`);
    expect(found.ok).toBe(false);
    if (!found.ok) expect(found.faults.map((each) => each.column)).toContain(column);
  });

  it('refuse an aft end, and a lay that says two things of itself', () => {
    const head = 'side,offset_mm,station_mm,gap_mm,placement,direction,edge,aft_end_mm';
    const end = readCsv(`${head}\r\nport,150,100,0,1,athwart,,20\r\n`);
    expect(!end.ok && end.faults[0].column).toBe('aft_end');
    const two = readCsv(
      `${head}\r\nport,150,100,0,1,athwart,long one,\r\nport,300,100,0,1,athwart,short one,\r\n`,
    );
    expect(!two.ok && two.faults[0].expected).toMatch(/what row 2 says of placement 1, athwart/);
  });
});
