import { describe, expect, test } from 'vitest';
import type { Entry } from '../../../src/book/entry.ts';
import { entryId } from '../../../src/book/id.ts';
import { hullOf } from '../../../src/survey/fold/hullOf.ts';
import { surveyOf } from '../../../src/survey/fold/surveyOf.ts';
import { draftOf, stampAll, type Draft } from '../../../src/survey/kinds/draft.ts';
import { plannedBefore } from '../../../web/views/plannedBefore.ts';
import { layAfter, statedLays, supportNow } from '../../../web/views/layView.ts';
import { answer, linesNotLaid, missingCount, questions } from '../../../web/views/rolloutView.ts';
import {
  plannedStations,
  setupDefaults,
  setupDrafts,
  toRemember,
  type SetupAnswers,
} from '../../../web/views/setupView.ts';
import {
  inOtherWords,
  plannedLine,
  readTolerance,
  toleranceDefaults,
} from '../../../web/views/toleranceView.ts';
import { assessOnce } from '../../../web/views/assessOnce.ts';

const HULL = 'ha11ha11ha11';
const SURVEY = 'svrvey000001';

let clock = 0;
function stamped(drafts: readonly Draft[]): readonly Entry[] {
  const ids = drafts.map(({ scope }) =>
    entryId({
      hull: HULL,
      survey: scope === 'hull' ? '0' : SURVEY,
      time: (clock += 1),
      random: new Uint8Array(10),
    }),
  );
  const signature = { at: '2026-11-25T09:00:00.000Z', by: 'A. Tester', device: 'd', app: 't' };
  return stampAll(drafts, { ids, ...signature });
}

const begun = () =>
  stamped([
    draftOf('hull', { name: 'Grey Teal (invented)' }),
    draftOf('survey', { workUnit: 'in', measured: 'hand' }),
  ]);
const setting = (standing: readonly Entry[]) => ({
  hull: hullOf(standing),
  standing,
  survey: SURVEY,
  unit: 'in' as const,
  limit: 60 * 25.4,
  today: '2026-11-25',
  by: 'A. Tester',
});
const answersFor = (
  standing: readonly Entry[],
  more: Partial<SetupAnswers> = {},
): SetupAnswers => ({
  ...setupDefaults({ hull: hullOf(standing), unit: 'in', person: 'A. Tester', remembered: {} }),
  stands: 'supports',
  what: 'keel blocks',
  ...more,
});
function startedFrom(
  standing: readonly Entry[],
  more: Partial<SetupAnswers> = {},
): readonly Entry[] {
  const read = setupDrafts(answersFor(standing, more), setting(standing));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const struck = new Set(
    read.drafts.flatMap(({ strikes }) => (strikes ?? []).map(({ entry }) => entry)),
  );
  return [...standing.filter(({ _id }) => !struck.has(_id)), ...stamped(read.drafts)];
}

describe('what a survey asks before its first reading', () => {
  test('takes who measures from the device, which remembers it elsewhere', () => {
    const asked = answersFor(begun());
    expect(asked.person).toBe('A. Tester');
    expect(Object.keys(toRemember(asked))).not.toContain('setup person');
  });

  test('makes lines, edge, gauge, plan and first lay, and agrees with what stood', () => {
    const all = startedFrom(begun());
    const { survey, plan, disagreements, setAside } = surveyOf(all, new Map(), SURVEY);
    expect([disagreements, setAside]).toEqual([[], []]);
    expect(hullOf(all).lines).toHaveLength(6);
    expect(plan.stations.map(({ text }) => text).slice(0, 3)).toEqual(['0 in', '3 in', '6 in']);
    expect(survey.date).toBe('2026-11-25');
    expect(survey.support).toEqual([{ what: 'keel blocks', checkedBy: 'A. Tester' }]);
    expect(survey.lines.map(({ name, placements }) => [name, placements])).toMatchObject([
      [
        'P8in',
        [{ held: 'resting', aftEnd: 0, edgeLength: 1524, division: 25.4 / 32, supportPeriod: 0 }],
      ],
    ]);
  });

  test('a hull in slings is refused, in the words of the record', () => {
    const standing = begun();
    const read = setupDrafts(answersFor(standing, { stands: 'slings' }), setting(standing));
    expect(read).toMatchObject({
      ok: false,
      problems: { stands: expect.stringMatching(/^A hull in slings is not measured/) as string },
    });
    const written = setupDrafts(answersFor(standing, { what: 'in slings' }), setting(standing));
    expect(written).toMatchObject({
      ok: false,
      problems: { what: expect.stringMatching(/slings/) as string },
    });
  });

  test('names each answer that is wanting', () => {
    const standing = begun();
    const bad = answersFor(standing, {
      stands: '',
      what: '',
      checkedBy: ' ',
      edgeLength: '0',
      aftEnd: 'x',
      held: 'blocks',
      firstStation: '',
    });
    const read = setupDrafts(bad, setting(standing));
    expect(read.ok ? [] : Object.keys(read.problems).sort()).toEqual([
      'aftEnd',
      'block',
      'checkedBy',
      'edgeLength',
      'firstStation',
      'stands',
      'what',
    ]);
  });

  test('how the hull stands is never remembered; what is the same at the next hull is', () => {
    const remembered = toRemember(
      answersFor(begun(), { edgeLength: '72 in', held: 'blocks', block: '1' }),
    );
    expect(JSON.stringify(remembered)).not.toContain('"setup stands"');
    const next = setupDefaults({ hull: hullOf([]), unit: 'in', person: '', remembered });
    expect(next).toMatchObject({
      stands: '',
      edgeLength: '72 in',
      held: 'blocks',
      block: '1',
      checkedBy: 'A. Tester',
    });
  });

  test('stations begin with the first that can be read', () => {
    const planned = plannedStations({ mm: 12.7, text: '1/2 in' }, 60 * 25.4, 'in');
    expect(planned.slice(0, 3).map(({ text }) => text)).toEqual(['1/2 in', '3 in', '6 in']);
  });
});

describe('the lay that follows', () => {
  const all = startedFrom(begun(), { held: 'blocks', block: '1 in' });
  const [{ body }] = statedLays(all, SURVEY);
  const beside = [{ name: '1', repeat: 1 }];

  test('on a new line carries how the edge is held, on what stands now', () => {
    const next = layAfter(body, 'new line', 'line2', [], 'support2');
    expect(next).toMatchObject({
      line: 'line2',
      name: '1',
      repeat: 1,
      held: 'blocks',
      support: 'support2',
    });
    expect(next.block?.mm).toBe(25.4);
  });
  test('laid again is the same lay once more; moved is a lay of its own', () => {
    expect(layAfter(body, 'again', body.line, beside, undefined)).toMatchObject({
      name: '1',
      repeat: 2,
    });
    expect(layAfter(body, 'moved', body.line, beside, undefined)).toMatchObject({
      name: '2',
      repeat: 1,
    });
  });
  test('stands on the last support', () => {
    expect(supportNow(all, SURVEY)).toBe(body.support);
    const moved = stamped([draftOf('support', { nth: 2, what: 'trailer' })]);
    expect(supportNow([...all, ...moved], SURVEY)).toBe(moved[0]._id);
  });
});

describe('the list before rolling out', () => {
  test('has a question for everything that is missing, and an answer takes it off', () => {
    const all = startedFrom(begun());
    const { survey } = surveyOf(all, new Map(), SURVEY);
    const open = questions(survey).filter(({ said }) => said === undefined);
    // The engine is asked for with the supports.
    expect(open).toHaveLength(missingCount(survey) - 1);
    const given: Readonly<Record<string, string>> = {
      length: '1/8',
      days: '6',
      temperature: '18 C',
    };
    const drafts = open.map((question) => {
      const text =
        typeof question.as === 'string' ? (given[question.as] ?? 'said') : question.as[1];
      const said = answer(question, text, 'in');
      if (!said.ok) throw new Error(said.words);
      return draftOf('condition', said.body);
    });
    const after = surveyOf([...all, ...stamped(drafts)], new Map(), SURVEY).survey;
    expect(missingCount(after)).toBe(1);
    expect(after.transomRadius).toBeCloseTo(3.175, 9);
    expect(questions(after).every(({ said }) => said !== undefined)).toBe(true);
  });

  test('names the lines of the hull along which nothing was laid; the sheet does not wait for them', () => {
    const all = startedFrom(begun());
    const { survey } = surveyOf(all, new Map(), SURVEY);
    const { lines } = hullOf(all);
    const [first, ...others] = lines.map(({ name }) => name);
    expect(others.length).toBeGreaterThan(0);
    expect(linesNotLaid(survey, lines)).toEqual(others);
    expect(linesNotLaid(survey, lines.slice(0, 1))).toEqual([]);
    expect(survey.lines.map(({ name }) => name)).toContain(first);
  });

  test('keeps the figure beside the words, and refuses what is none', () => {
    const to = (as: 'days' | 'temperature' | 'length', text: string) =>
      answer({ about: 'x', as }, text, 'mm');
    expect(to('days', '6 days')).toMatchObject({ body: { said: '6 days', days: 6 } });
    expect(to('temperature', '64 F')).toMatchObject({ body: { said: '64 F', celsius: 17.78 } });
    expect(to('length', '0')).toMatchObject({ body: { length: { mm: 0 } } });
    for (const refused of [
      to('days', '-1'),
      to('temperature', '18'),
      to('length', '-3'),
      to('days', ' '),
    ]) {
      expect(refused.ok).toBe(false);
    }
  });
});

describe('the tolerance', () => {
  const all = startedFrom(begun());
  const { survey, plan } = surveyOf(all, new Map(), SURVEY);

  test('starts from the house default and must say who set it', () => {
    const defaults = toleranceDefaults(assessOnce(survey), 'in', '');
    expect(defaults).toEqual({ gap: '1.5 mm', over: '1500 mm', setBy: '', limit: '60 in' });
    expect(readTolerance(defaults, 'in')).toMatchObject({ problems: { setBy: 'Say who set it.' } });
    expect(readTolerance({ ...defaults, setBy: 'A', gap: '0' }, 'in').ok).toBe(false);
  });

  test('is shown again as it was typed', () => {
    const read = readTolerance({ gap: '1/16', over: '60', setBy: 'A. Tester', limit: '48' }, 'in');
    if (!read.ok) throw new Error('it can be read');
    const drafts = [draftOf('condition', read.tolerance), draftOf('condition', read.limit)];
    const set = surveyOf([...all, ...stamped(drafts)], new Map(), SURVEY).survey;
    expect(set.tolerance).toMatchObject({
      gap: 25.4 / 16,
      setBy: 'A. Tester',
      houseDefault: false,
    });
    expect(toleranceDefaults(assessOnce(set), 'in', '')).toEqual({
      gap: '1/16 in',
      over: '60 in',
      setBy: 'A. Tester',
      limit: '48 in',
    });
  });

  test('a figure in another unit than the survey’s is said in the survey’s as well', () => {
    expect(inOtherWords('1.5 mm', 'in')).toBe('About 1/16 in.');
    expect(inOtherWords('1500 mm', 'in')).toBe('About 59 in.');
    expect(inOtherWords('1/16 in', 'mm')).toBe('About 1.6 mm.');
    for (const same of ['1/16 in', '1/16', '5 ft', '', 'x']) {
      expect(inOtherWords(same, 'in')).toBe('');
    }
  });

  test('what can be proven is asked of the planned stations and the gauge in hand', () => {
    const planned = plannedLine(assessOnce(survey), plan.stations, 25.4 / 32);
    expect(planned.stations).toHaveLength(14);
    // GUM F.2.2.1 with half a division of repeatability.
    expect(planned.u).toBeCloseTo((25.4 / 32) * Math.hypot(1 / Math.sqrt(12), 0.5), 12);
  });
});

describe('what the answers so far would prove', () => {
  const standing = begun();
  const bare = assessOnce({ ...surveyOf(standing, new Map(), SURVEY).survey, lines: [] });
  const planned = (more: Partial<SetupAnswers>) =>
    plannedBefore(answersFor(standing, more), hullOf(standing), bare);

  test('is asked of the usual stations and of the gauge that is chosen', () => {
    const coarse = planned({ division: '1/32 in' });
    expect(coarse?.stations.slice(0, 3)).toEqual([0, 3 * 25.4, 6 * 25.4]);
    expect(coarse?.stations.at(-1)).toBeCloseTo(60 * 25.4, 6);
    expect(planned({ division: '0.1 mm' })?.u).toBeLessThan(coarse?.u as number);
  });

  test('is not asked while the first station cannot be used', () => {
    expect(planned({ firstStation: 'aft' })).toBeUndefined();
    expect(planned({ firstStation: '1/2' })?.stations[0]).toBeCloseTo(12.7, 6);
  });
});
