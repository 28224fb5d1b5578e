import { describe, expect, it } from 'vitest';

import { assess } from '../../../src/survey/assess.ts';
import { entriesFromSurvey, whyNoEntries } from '../../../src/survey/entriesFromSurvey.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { readBody } from '../../../src/survey/kinds/readBody.ts';
import { handOver, takeOver } from '../../../src/survey/handOver.ts';
import { readLog } from '../../../src/survey/log/readLog.ts';
import { keptLogsOf, withoutSeries, withSeries } from '../../../src/survey/log/withSeries.ts';
import { madeLog } from '../log/madeLogs.ts';
import { entriesOf, folded, mm } from './samples.ts';

const kept = { name: 'rolling.csv.gz', sha256: 'a'.repeat(64), given: { gap: 'mm' } };
const text = madeLog({ rows: 400 }).replace('\n', '\n# date: 2026-05-04\n');
const read = readLog(new TextEncoder().encode(text));
if (read?.ok !== true) throw new Error('a log expected');
const { survey } = read;

describe('a log whose file is kept by an import', () => {
  const drafts = entriesFromSurvey(survey, { file: 'rolling.csv', kept });
  const entries = entriesOf(drafts);
  const state = folded(entries);
  const [placement] = state.survey.lines[0].placements;
  const entry = entries.find(({ kind }) => kind === 'import')?._id;

  it('is one entry that names the file, its SHA-256 and its count, and no row', () => {
    expect(drafts.filter(({ kind }) => kind === 'import').map(({ body }) => body)).toMatchObject([
      { file: 'rolling.csv', count: 400, rows: [], kept: { ...kept, lays: [{ count: 400 }] } },
    ]);
    expect(whyNoEntries(survey)).toBeUndefined();
    expect(() => entriesFromSurvey(survey)).toThrow('the kept file is expected');
  });

  it('folds to a placement that says where its readings are, and takes them from the file read again', () => {
    expect(placement.readings).toEqual([]);
    expect(placement.log).toEqual({ count: 400, kept: { ...kept, entry, lay: 'P450/1/1' } });
    expect(keptLogsOf(state.survey).map((log) => log.entry)).toEqual([entry]);
    const whole = withSeries(state.survey, new Map([[entry as string, read]]));
    expect(whole.lines[0].placements[0].log?.series).toBe(
      survey.lines[0].placements[0].log?.series,
    );
    expect(withoutSeries(whole)).toEqual(state.survey);
    expect(() => withSeries(state.survey, new Map())).toThrow(
      'the kept file of P450/1/1: got none',
    );
  });

  it('is judged elsewhere and handed over whole but for its readings', () => {
    const whole = withSeries(state.survey, new Map([[entry as string, read]]));
    const there = assess(whole);
    const here = takeOver(structuredClone(handOver(there)));
    const [a, b] = [there.lines[0].outcome, here.lines[0].outcome];
    if (!a.ok || !b.ok) throw new Error('judged lines expected');
    expect(b.judgement).toEqual(a.judgement);
    expect(b.fitted).toBeUndefined();
    const at = (judged: typeof a) => {
      const values = new Float64Array(4);
      const profile = judged.fitted?.profile ?? judged.apart?.profile;
      return [profile?.basis.valuesAt(0.37, values), ...values];
    };
    expect(at(b)).toEqual(at(a));
    expect(here.survey).toEqual(state.survey);
  });

  it('sets a reading by hand of the same placement aside, in plain words', () => {
    const id = entries.find(({ kind }) => kind === 'placement')?._id as string;
    const typed = draftOf('reading', { placement: id, station: mm(75), gap: mm(1), look: 1 });
    const [, , , ...rest] = entriesOf([...drafts, typed]);
    const more = folded([...entries, ...rest.filter(({ kind }) => kind === 'reading')]);
    expect(more.survey.lines[0].placements[0].readings).toEqual([]);
    expect(more.setAside.map(({ reason }) => reason)).toContain(
      'its placement is a log; lay the edge again to read it by hand',
    );
  });

  it('is a disagreement where two files speak of one placement', () => {
    const id = entries.find(({ kind }) => kind === 'placement')?._id as string;
    const body = drafts.find(({ kind }) => kind === 'import')?.body as object;
    const twin = draftOf('import', { ...body, placements: [id] } as never);
    const more = entriesOf([...drafts, twin]);
    expect(folded(more).disagreements.map(({ about }) => about)).toContain(
      'two logs of one placement',
    );
  });

  it('must count its lays as it counts placements, and give a SHA-256', () => {
    const body = drafts.find(({ kind }) => kind === 'import')?.body as { kept: object };
    const reason = (changed: object) => {
      const found = readBody('import', { ...body, kept: { ...body.kept, ...changed } });
      return found.ok ? '' : found.reason;
    };
    expect(reason({})).toBe('');
    expect(reason({ lays: [] })).toContain('a lay of the kept file for each placement');
    expect(reason({ sha256: 'none' })).toContain('expected a SHA-256');
  });
});
