import { render } from 'svelte/server';
import { describe, expect, it, vi } from 'vitest';
import { bookOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { standing } from '../../../src/book/standing.ts';
import { gatesOf, NO_STATEMENTS } from '../../../src/fairing/gates.ts';
import { assess } from '../../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../../src/survey/assessment.ts';
import { hullOf } from '../../../src/survey/fold/hullOf.ts';
import { signatureNow } from '../../../src/survey/fold/signaturesOf.ts';
import { surveyOf } from '../../../src/survey/fold/surveyOf.ts';
import { draftOf, stamp } from '../../../src/survey/kinds/draft.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { lineWords } from '../../../src/survey/verdictWords.ts';
import Exhibit from '../../../web/sheets/Exhibit.svelte';
import { demoEntries } from '../../../web/store/demo.ts';
import { DEMO_HULL, DEMO_SURVEY } from '../../../web/store/demoHull.ts';
import { exhibitFrom } from '../../../web/views/exhibitFrom.ts';
import { historyView, type HistoryFrom, type Season } from '../../../web/views/exhibitHistory.ts';
import { exhibitView, type ExhibitFrom, type ExhibitView } from '../../../web/views/exhibitView.ts';
import { sampleSurvey, wordsOf } from '../sheets/samples.ts';
import { idOf, SIGNATURE } from '../../survey/fold/samples.ts';

// What would decide an undecided line takes long to find.
vi.setConfig({ testTimeout: 60_000 });

const assessed = new Map<string, SurveyAssessment>();
function assessedOnce(survey: Survey): SurveyAssessment {
  const said = JSON.stringify(survey);
  const assessment = assessed.get(said) ?? assess(survey);
  assessed.set(said, assessment);
  return assessment;
}

const season = (key: string, name: string): Season => {
  const assessment = assessedOnce(sampleSurvey(name));
  const { date } = assessment.survey;
  return { key, ...(date !== undefined && { date }), assessment };
};

function viewOf(
  name: string,
  {
    seasons,
    repairs,
    between,
    key,
    ...more
  }: Partial<ExhibitFrom & HistoryFrom> & { key?: string } = {},
): ExhibitView {
  const own = season('own', name);
  const { assessment } = own;
  if (assessment === undefined) throw new Error('an assessment expected');
  return exhibitView({
    assessment,
    unit: assessment.survey.workUnit,
    paper: 'A4',
    gates: gatesOf(assessment, NO_STATEMENTS),
    history: historyView({
      own: key ?? 'own',
      seasons: seasons ?? [own],
      repairs: repairs ?? [],
      unit: assessment.survey.workUnit,
      ...(between && { between }),
    }),
    signatures: [],
    says: ({ entry }) => entry.kind,
    ...more,
  });
}

const printed = (view: ExhibitView) =>
  wordsOf(render(Exhibit, { props: { view, photos: [] } }).body);

describe.each(['two-placements', 'season-2026', 'stories/rocker-blocks'])(
  'the exhibit of %s',
  (name) => {
    const survey = sampleSurvey(name);
    const assessment = assessedOnce(survey);
    const view = viewOf(name);
    const words = printed(view);

    it('says of every line its verdict, what was found, how sure, and what might not show', () => {
      for (const line of assessment.lines) {
        const { word, findings, proof, blind } = lineWords(line, assessment, survey.workUnit);
        expect(words).toContain(
          `from the KEEL${line.parts > 1 ? `, part ${line.part} of ${line.parts}` : ''}: ${word}`,
        );
        for (const said of [...findings, proof, blind]) expect(words).toContain(said);
      }
    });

    it('holds every reading as it was typed', () => {
      const cells = view.readings.flatMap(({ heads, rows }) =>
        rows.flatMap(({ station, cells: row }) =>
          row.map((cell, i) => ({ line: heads[i], station, cell })),
        ),
      );
      for (const { name: line, placements } of survey.lines) {
        for (const { station, gap } of placements.flatMap(({ readings }) => readings)) {
          const [at] = cells.filter((each) => each.line === line && each.station === station.text);
          expect(at?.cell.split(', ').map((text) => text.replace(/ [a-z].*/, ''))).toContain(
            gap.text,
          );
        }
      }
    });

    it('names the four places on every figure, and never left and right', () => {
      for (const place of ['PORT', 'STARBOARD', 'TRANSOM', 'KEEL']) expect(words).toContain(place);
      expect(words).not.toMatch(/\b(?:on|to) the left\b/);
    });

    it('says that it is no condition survey, what proven means, and who comes first', () => {
      expect(words).toContain('A measurement exhibit, not a condition survey.');
      expect(words).toContain('97.5 %');
      expect(words).toContain('Local codes and licensed practice come first.');
      expect(words).toContain('qualified marine surveyor');
      expect(words).toContain('Structure, moisture and laminate were not examined.');
    });
  },
);

describe('what an exhibit leaves open', () => {
  it('is told where nobody stated it, never passed over', () => {
    const words = printed(viewOf('season-2026'));
    expect(words).toContain('Made for: not stated.');
    expect(words).toContain('Place not stated Weather not stated Measured by not stated');
    expect(words).toContain('was not checked, and nothing is stated of it');
    expect(words).toContain('No check of it is recorded.');
  });

  it('is every void with its reason, unless it was read on another laying', () => {
    const survey = sampleSurvey('two-placements');
    const voids = survey.lines.flatMap(({ placements }) => placements.flatMap((p) => p.voids));
    expect(voids.length).toBeGreaterThan(0);
    const said = viewOf('two-placements').notRead.find(({ what }) => what.includes('void'));
    for (const { station, reason } of voids) {
      expect(said?.items.join(' ')).toContain(station.text);
      expect(said?.items.join(' ')).toContain(reason);
    }
    const [line] = survey.lines;
    const [placement] = line.placements;
    const again = {
      ...survey,
      lines: [
        {
          ...line,
          placements: [
            placement,
            {
              ...placement,
              id: 'again',
              repeat: 2,
              voids: [],
              readings: placement.voids.map(({ station, source }) => ({
                station,
                gap: { mm: 1, text: '1' },
                look: 1,
                source: `${source} again`,
              })),
            },
          ],
        },
      ],
    };
    const assessment = assess(again);
    const read = viewOf('two-placements', { assessment }).notRead.find(({ what }) =>
      what.includes('void'),
    );
    expect(read?.items ?? []).toEqual([]);
  });

  it('is a station that was planned, and a line of the hull, that nobody read', () => {
    const stands = standing(bookOf(demoEntries()));
    const hull = hullOf(stands.standing);
    const view = viewOf('season-2026', {
      planned: [{ mm: 25.4, text: '1 in' }],
      hull: { ...hull, lines: hull.lines.map((line) => ({ ...line, id: `other ${line.id}` })) },
    });
    const words = view.notRead.map(({ what, items }) => `${what}: ${items.join(' ')}`).join('\n');
    expect(words).toMatch(/planned and not read: P300: 1 in\. P700: 1 in\./);
    expect(words).toMatch(/not surveyed: P6in, P18in.* and S30in\./);
  });

  it('is a gate that nobody has looked at; one that was answered says by whom', () => {
    const { assessment } = season('own', 'season-2026');
    if (assessment === undefined) throw new Error('an assessment expected');
    const gates = gatesOf(assessment, {
      ...NO_STATEMENTS,
      gates: new Map([['moisture', { gate: 'moisture', answer: 'no', by: 'Kim (invented)' }]]),
    });
    const { words, rows } = viewOf('season-2026', { gates }).lookedAt;
    expect(words).toContain('were not measured');
    expect(rows).toContainEqual({ asks: 'Moisture found', answer: 'no (Kim (invented))' });
    expect(rows).toContainEqual({ asks: 'Sounded: solid all over', answer: 'not checked' });
  });
});

describe('the hull over the seasons', () => {
  const seasons = ['2026', '2024', '2025'].map((year) => season(year, `season-${year}`));
  const own = seasons[0].assessment;
  if (own === undefined) throw new Error('an assessment expected');
  const of = (more: Parameters<typeof viewOf>[1] = {}) =>
    viewOf('season-2026', { assessment: own, seasons, key: '2026', ...more }).history;

  it('lists every survey by date with its verdicts, and compares with the last before this one', () => {
    const history = of();
    expect(history.surveys.map(({ date, own: is }) => [date.slice(0, 4), is])).toEqual([
      ['2024', false],
      ['2025', false],
      ['2026', true],
    ]);
    expect(history.surveys[2].verdicts).toMatch(/^Hook: P700;/);
    expect(history.change?.since).toMatch(/^2025/);
    const words = Object.fromEntries(history.change?.lines.map((l) => [l.name, l.word]) ?? []);
    expect(words).toEqual({
      P300: 'Not moved',
      P700: 'Moved',
      S300: 'Not moved',
      S700: 'Not moved',
    });
  });

  it('takes surveys of one day in the order in which they were begun: a later one is not the one before', () => {
    const dated = (key: string, name: string) => ({ ...season(key, name), date: '2026-04-16' });
    const oneDay = (keys: readonly [string, string]) => {
      const both = [dated(keys[0], 'season-2026'), dated(keys[1], 'season-2025')];
      return of({ seasons: both, key: keys[0] });
    };
    for (const keys of [['a', 'z'] as const, ['z', 'a'] as const]) {
      const { change, none, surveys } = oneDay(keys);
      expect(surveys.map(({ own: is }) => is)).toEqual([true, false]);
      expect(change).toBeUndefined();
      expect(none).toMatch(/^No earlier survey/);
    }
  });

  it('passes over a survey that differs in its set-up, unless that was accepted knowingly', () => {
    const trailer = seasons.map((each) =>
      each.key === '2025' && each.assessment !== undefined
        ? {
            ...each,
            assessment: {
              ...each.assessment,
              survey: { ...each.assessment.survey, support: [{ what: 'trailer bunks' }] },
            },
          }
        : each,
    );
    expect(of({ seasons: trailer }).change?.since).toMatch(/^2024/);
    const acceptance = {
      id: 'a',
      by: 'Jo',
      at: '2026-05-01T08:00:00Z',
      what: 'support',
      differs: '“trailer bunks”, then “stands and keel blocks”',
      reason: 'looked at both',
    } as const;
    const refused = of({ seasons: trailer.filter(({ key }) => key !== '2024') });
    expect(refused.change).toBeUndefined();
    expect(refused.none).toMatch(/^No earlier survey can be compared.*what the hull stood on/);
    // An acceptance of another difference lapses.
    const lapsed = { ...acceptance, differs: 'something else' };
    const between = () => ({ acceptances: [lapsed], control: [] });
    expect(of({ seasons: trailer, between }).change?.since).toMatch(/^2024/);
  });

  it('tells repairs, and that nothing before them is compared on the lines they touched', () => {
    const repairs = [
      {
        date: '2025-10-01',
        what: 'filled and faired',
        lines: ['P700'],
        names: ['P700'],
        by: 'Kim',
      },
    ];
    const history = of({ repairs });
    expect(history.repairs).toEqual(['2025-10-01: filled and faired; lines P700; done by Kim']);
    expect(history.change?.words[0]).toContain('Repaired in between');
    expect(history.change?.lines.find(({ name }) => name === 'P700')?.word).toBe('Not compared');
  });

  it('says so where no earlier survey stands', () => {
    expect(viewOf('season-2024').history.none).toMatch(/^No earlier survey/);
  });
});

describe('signatures and amendments', () => {
  const id = (n: number) =>
    idOf(n, 'survey').replace(/^[^:]*:[^:]*/, `${DEMO_HULL}:${DEMO_SURVEY}`);
  const demo = demoEntries();
  const sign = (entries: readonly Entry[], n: number, strokes?: number[][]) =>
    stamp(
      draftOf(
        'signature',
        signatureNow(standing(bookOf(entries)), DEMO_SURVEY, {
          role: n % 2 === 0 ? 'measured' : 'checked',
          name: n % 2 === 0 ? 'Jo (invented)' : 'Kim (invented)',
          ...(strokes && { strokes }),
        }),
      ),
      { ...SIGNATURE, id: id(n) },
    );
  const of = (entries: readonly Entry[]): ExhibitView => {
    const stands = standing(bookOf(entries));
    const state = surveyOf(stands.standing, stands.struckRows, DEMO_SURVEY);
    // Signatures do not hang on the verdicts, which take long.
    const assessment = assessedOnce({ ...state.survey, lines: [] });
    return exhibitView(
      exhibitFrom({
        stands,
        hull: hullOf(stands.standing),
        state,
        assessment,
        history: { surveys: [], repairs: [] },
        unit: 'in',
        paper: 'A4',
      }),
    );
  };
  const signed = [
    ...demo,
    sign(demo, 2, [
      [0.1, 0.1, 0.2, 0.2],
      [0.5, 0.1],
    ]),
  ];
  const reading = demo.find(({ kind }) => kind === 'reading');
  if (reading === undefined) throw new Error('a reading expected');
  const struck: Entry = {
    _id: id(10).replace(DEMO_SURVEY, '0'),
    v: 1,
    kind: 'strike',
    ...SIGNATURE,
    strikes: [{ entry: reading._id }],
    why: 'the edge had slipped',
    body: { act: 'strike' },
  };

  it('leave lines to sign on paper for whoever has not signed', () => {
    expect(of(demo).signatures).toEqual({
      signed: [],
      open: ['Measured', 'Checked'],
      amendments: [],
    });
    const view = of(signed);
    expect(view.signatures.open).toEqual(['Checked']);
    expect(view.signatures.signed[0]).toMatchObject({
      as: 'Measured',
      name: 'Jo (invented)',
      path: 'M100,100L200,200M500,100h0',
      when: '2026-05-04 09:30 UTC',
      state: 'Nothing has been amended since.',
    });
    expect(printed(view)).toContain('Jo (invented) , signed on screen, 2026-05-04 09:30 UTC');
  });

  it('tell what was struck since, when, by whom and why, and which state each signature covers', () => {
    const amended = [...signed, struck];
    const view = of([...amended, sign(amended, 11)]);
    expect(view.signatures.amendments).toEqual([
      {
        key: view.signatures.signed[0].digest.replaceAll(' ', ''),
        since: 'Since Jo (invented) (measured) signed, 2026-05-04 09:30 UTC',
        rows: [
          {
            when: '2026-05-04 09:30 UTC',
            who: 'Yard hand',
            what: 'Struck: P6in, 0 in: 0 in (contact), read to 1/32 in',
            why: 'the edge had slipped',
          },
        ],
      },
    ]);
    expect(view.signatures.signed.map(({ state }) => state.slice(0, 18))).toEqual([
      'Amended since in 1',
      'Nothing has been a',
    ]);
    const words = printed(view);
    expect(words).toContain('Amendments Nothing that was entered is ever erased.');
    expect(words).toContain('Kim (invented) , signed on screen by typed name');
  });

  it('name both who signed the same state over one list', () => {
    const both = of([...signed, sign(signed, 3), struck]).signatures.amendments;
    expect(both).toHaveLength(1);
    expect(both[0].since).toMatch(/^Since Jo \(invented\) \(measured\) .* and Kim/);
  });

  it('do not hide that an entry which was signed is not here', () => {
    const [state] = of(signed.filter((entry) => entry !== reading)).signatures.signed;
    expect(state.state).toMatch(/^1 of the \d+ entries that were signed are not on this device/);
  });
});
