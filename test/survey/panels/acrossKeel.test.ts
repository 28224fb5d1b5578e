import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { writeCsv } from '../../../src/survey/csv/writeCsv.ts';
import { entriesFromSurvey } from '../../../src/survey/entriesFromSurvey.ts';
import { assessPanels } from '../../../src/survey/panels/assessPanels.ts';
import { panelWords, sidesSentence } from '../../../src/survey/panels/panelWords.ts';
import { surfaceFrom } from '../../../src/survey/panels/surfaceFrom.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { entriesOf, folded } from '../fold/samples.ts';

const STORY = readFileSync(
  new URL('../../../fixtures/samples/stories/twisted-skiff.csv', import.meta.url),
  'utf8',
);
const HEAD = 'side,offset_mm,station_mm,gap_mm,placement,direction,over_keel\r\n';
const FLAT = '# flat across the keel: yes\r\n';

function read(text: string): Survey {
  const found = readCsv(text);
  if (!found.ok) throw new Error(JSON.stringify(found.faults.slice(0, 3)));
  return found.survey;
}

function faultsOf(text: string) {
  const found = readCsv(text);
  return found.ok ? [] : found.faults;
}

function rowsWithout(drop: (row: string) => boolean): Survey {
  return read(
    STORY.split('\r\n')
      .filter((row) => !drop(row))
      .join('\r\n'),
  );
}

describe('the story of the twisted skiff (invented)', () => {
  const all = assess(read(STORY));
  const found = assessPanels(all);

  it('is one panel of both sides, from port to starboard, though every line is fair', () => {
    const verdicts = all.lines.map(({ outcome }) => outcome.ok && outcome.judgement.verdict);
    expect(verdicts).toEqual(Array(6).fill(['fair']));
    expect(found.panels.map(({ side }) => side)).toEqual(['both']);
    const [{ lines, across }] = found.panels;
    expect(lines.map(({ name }) => name)).toEqual(['P450', 'P300', 'P150', 'S150', 'S300', 'S450']);
    expect(across).toHaveLength(5);
  });

  it('is twisted by its 6 mm within the uncertainty, which no side shows by itself', () => {
    const [{ outcome }] = found.panels;
    if (!outcome.ok) throw new Error('tied');
    const { twist, misclosure, areas } = outcome;
    expect(twist?.verdict).toBe('twisted');
    expect(Math.abs((twist?.corner ?? NaN) - 6)).toBeLessThan(2 * (twist?.cornerU ?? NaN));
    expect(areas).toMatchObject({ verdict: 'fair', areas: [] });
    expect(misclosure.closes).toBe(true);
    const cut = read(
      STORY.split('\r\n')
        .map((row) => row.replace(/,yes$/, ','))
        .join('\r\n'),
    );
    const apart = assessPanels(assess(cut)).panels;
    expect(apart.map(({ side }) => side)).toEqual(['port', 'starboard']);
    for (const { outcome: own } of apart) expect(own.ok && own.twist?.verdict).not.toBe('twisted');
  });

  it('says which line turns against which, and what ties the sides to one another', () => {
    const words = panelWords(found.panels[0], all);
    expect(words.word).toBe('Twisted');
    expect(words.where).toMatch(/^both sides, lines P450, /);
    expect(words.findings[0]).toMatch(
      /^As a whole the bottom is twisted: S450, the outermost line to starboard, turns towards the water going forward by .* against P450, the outermost to port/,
    );
    expect(words.next[0]).toMatch(/^Fill nothing yet/);
    expect(sidesSentence(found, 'mm')).toMatch(
      /Straightedges right across the keel tie them: as a whole starboard turns towards the water going forward by 0\.\d+° ± 0\.\d+° against port, and across the keel the two /,
    );
    expect(found.sides?.lines.map((pair) => pair.map(({ name }) => name).join(' '))).toEqual([
      'P150 S150',
      'P300 S300',
      'P450 S450',
    ]);
  });

  it('has a map from chine to chine, places to port below 0', () => {
    const [panel] = surfaceFrom(all, 'mm').panels;
    expect(panel.side).toBe('both');
    expect(panel.lines.map(({ place }) => place)).toEqual([-450, -300, -150, 150, 300, 450]);
    const [{ y }] = panel.grids;
    expect([y[0], y[y.length - 1]]).toEqual([-450, 450]);
    expect(panel.closure.map(({ lies }) => lies).at(-1)).toMatch(
      /^diagonal, \d+ mm on P450 to \d+ mm on S450$/,
    );
  });

  it('asks for a diagonal by the names of its outermost lines where none was laid', () => {
    const without = assess(rowsWithout((row) => row.includes(',diagonal,')));
    const [panel] = assessPanels(without).panels;
    const words = panelWords(panel, without);
    expect(words.word).toBe('Fair but for a twist nobody looked for');
    expect(words.next[0]).toMatch(/on the diagonal from \d+ mm on P450 to \d+ mm on S450/);
    expect(sidesSentence(assessPanels(without), 'mm')).toMatch(
      /At which angle they lie to one another is not told: none was laid on a diagonal/,
    );
  });

  it('tells each side by itself where what lies across the keel does not tie the two, and says so', () => {
    const one = (row: string) => /,(2|3),athwart,yes$|,diagonal,yes$/.test(row);
    const cut = (row: string) => (one(row) ? row.replace(/,yes$/, ',') : row);
    const mixed = assess(read(STORY.split('\r\n').map(cut).join('\r\n')));
    const apart = assessPanels(mixed);
    expect(
      apart.panels.map(({ side, across, keelOpen }) => [side, across.length, keelOpen]),
    ).toEqual([
      ['port', 5, true],
      ['starboard', 5, true],
    ]);
    expect(panelWords(apart.panels[0], mixed).next.at(-1)).toMatch(
      /^What was laid right across the keel does not tie the two sides/,
    );
    expect(sidesSentence(apart, 'mm')).toMatch(/does not tie the two sides to one another/);
  });

  it('takes in a line on the keel itself', () => {
    const keel = [100, 800, 1400].map((at, i) => `centre,0,${at},1,${i + 1},athwart,yes`);
    const along = [0, 300, 600, 900, 1200].map((at) => `centre,0,${at},0.5,1,,`);
    const survey = read(`${STORY}${[...along, ...keel].join('\r\n')}\r\n`);
    const [{ lines }] = assessPanels(assess(survey)).panels;
    expect(lines.map(({ name }) => name)).toEqual([
      'P450',
      'P300',
      'P150',
      'C0',
      'S150',
      'S300',
      'S450',
    ]);
  });
});

it('of two lines at one place the first is part of the surface, and nothing is thrown', () => {
  const [head, ...rows] = STORY.split('side,offset');
  const named = `side,offset${rows.join('')}`
    .replace(/over_keel\r\n/, 'over_keel,line\r\n')
    .replace(/\r\n(?=[ps])/g, ',\r\n');
  const twin = [0, 300, 600, 900, 1200].map((at) => `port,300,${at},0.5,1,,,again`);
  const survey = read(`${head}${named}${twin.join('\r\n')}\r\n`);
  expect(survey.lines).toHaveLength(7);
  const [{ lines }] = assessPanels(assess(survey)).panels;
  expect(lines.map(({ name }) => name)).toEqual(['P450', 'P300', 'P150', 'S150', 'S300', 'S450']);
});

describe('placements across the keel in CSV', () => {
  it('go out and come in again the same', () => {
    const survey = read(STORY);
    expect(survey.across?.map(({ id }) => id)).toEqual([
      'both/athwart 1/1',
      'both/athwart 2/1',
      'both/athwart 3/1',
      'both/diagonal 1/1',
      'both/diagonal 2/1',
    ]);
    const bare = (s: Survey) =>
      JSON.parse(
        JSON.stringify(s, (key, value: unknown) => (key === 'source' ? 0 : value)),
      ) as unknown;
    expect(bare(read(writeCsv(survey)))).toEqual(bare(survey));
  });

  it('are refused once a placement, with its row, where nobody states that the bottom is flat there', () => {
    const rows = 'port,300,100,0,1,athwart,yes\r\nstarboard,300,100,0,1,athwart,yes\r\n';
    for (const text of [HEAD + rows, `# flat across the keel: no\r\n${HEAD}${rows}`]) {
      const faults = faultsOf(text);
      expect(faults).toHaveLength(1);
      expect(faults[0]).toMatchObject({ column: 'over_keel', found: 'yes' });
      expect(faults[0].expected).toMatch(/on a vee no straightedge lies along both sides/);
    }
  });

  it('are two placements where no row says that they lie across the keel, flat or not', () => {
    const rows = 'port,300,100,0,1,athwart,\r\nstarboard,300,100,0,1,athwart,no\r\n';
    expect(read(FLAT + HEAD + rows).across?.map(({ side }) => side)).toEqual(['port', 'starboard']);
  });

  it.each([
    ['over_keel without a direction', `${FLAT}${HEAD}port,300,100,0,1,,yes`, 'over_keel'],
    ['anything but yes or no', `${FLAT}${HEAD}port,300,100,0,1,athwart,perhaps`, 'over_keel'],
    ['a centre line off the keel', `${FLAT}${HEAD}centre,40,100,0,1,athwart,yes`, 'offset'],
    [
      'a bottom that is half flat',
      `# flat across the keel: half\r\n${HEAD}port,300,1,0,1,,`,
      'flat across the keel',
    ],
    [
      'a bottom that is both',
      `${FLAT}# flat across the keel: no\r\n${HEAD}port,300,1,0,1,,`,
      'flat across the keel',
    ],
  ])('refuse %s', (_, text, column) => {
    expect(faultsOf(`${text}\r\n`).map((each) => each.column)).toContain(column);
  });
});

describe('placements across the keel in the record', () => {
  const survey = read(STORY);
  const entries = entriesOf(entriesFromSurvey(survey));

  it('are assessed as from the file', () => {
    const kept = folded(entries);
    expect([...kept.setAside, ...kept.disagreements]).toEqual([]);
    const corner = (of: Survey) =>
      assessPanels(assess(of)).panels.map(({ side, outcome }) =>
        outcome.ok ? [side, outcome.twist?.corner] : outcome.reason,
      );
    expect(corner(kept.survey)).toEqual(corner(survey));
  });

  it('are kept and not reckoned with until somebody states that the bottom is flat there', () => {
    const unsaid = entries.filter(
      ({ body }) => (body as { about?: string }).about !== 'flat across the keel',
    );
    const kept = folded(unsaid);
    expect(kept.survey.across?.map(({ readings }) => readings.length)).toEqual([6, 6, 6, 6, 6]);
    expect(kept.setAside.map(({ kind }) => kind)).toEqual(Array(5).fill('placement across'));
    expect(kept.setAside[0].reason).toMatch(/nobody states that this bottom is flat there/);
    expect(
      assessPanels(assess(kept.survey)).panels.map(({ side, outcome }) => [side, outcome]),
    ).toEqual([
      ['port', { ok: false, reason: 'not crossed' }],
      ['starboard', { ok: false, reason: 'not crossed' }],
    ]);
  });
});
