import { describe, expect, test } from 'vitest';

import type { Entry } from '../../../src/book/entry.ts';
import { draftOf, stampAll, type Draft } from '../../../src/survey/kinds/draft.ts';
import { entryId, NO_SURVEY, parseId } from '../../../src/book/id.ts';
import { madeHull, USUAL_PLAN } from '../../../tools/madeYard.ts';
import type { HullFacts } from '../../../web/store/hullFacts.ts';
import { SUMMARIES } from '../../../web/store/database.ts';
import { factsOf } from '../../../web/store/summary.ts';
import type { WorkOut } from '../../../web/store/summaryClient.ts';
import { Yard } from '../../../web/store/yard.svelte.ts';
import { Machine, until } from './around.ts';

const plan = { ...USUAL_PLAN, surveys: 2, lines: 2, stations: 8 };
const entries = madeHull(plan, 0);
const first = parseId(entries[0]._id);
const hull = first.ok ? first.hull : '';

/** One entry more about the hull. */
function more(draft: Draft, nth = 1, strikes?: Entry['strikes']): Entry {
  const id = entryId({
    hull,
    survey: NO_SURVEY,
    time: Date.UTC(2026, 11, 1) + nth,
    random: new Uint8Array(10),
  });
  const [entry] = stampAll([draft], {
    ids: [id],
    at: '2026-12-01T00:00:00Z',
    by: 'Invented yard hand',
    device: 'Tablet 1',
    app: '0.1.0',
  });
  return strikes === undefined ? entry : { ...entry, strikes };
}

describe('the summary of a hull', () => {
  const facts = factsOf(entries);
  /** The same, but for a verdict that no reading gives: it shows whether it was taken over. */
  const marked: HullFacts = { ...facts, verdict: [{ word: 'Marked', lines: 9 }] };
  const taken = (others: readonly Entry[]): boolean =>
    factsOf([...entries, ...others], marked).verdict[0]?.word === 'Marked';

  test('says who built it, its number, its own interval, and whether it moved', () => {
    const named = draftOf('hull', {
      name: 'Reed Plover (invented)',
      builder: 'Invented Builder 3',
      hin: 'INVENTED-0001',
      checkEvery: 6,
      invented: true,
    });
    const strikes = [{ entry: entries[0]._id }];
    expect(factsOf([...entries, more(named, 1, strikes)])).toMatchObject({
      name: 'Reed Plover (invented)',
      builder: 'Invented Builder 3',
      hin: 'INVENTED-0001',
      checkEvery: 6,
      surveys: 2,
      moved: { outcome: expect.any(String) as unknown },
    });
  });

  test('is not judged again where nothing measured has changed', () => {
    expect(taken([])).toBe(true);
    expect(taken([more(draftOf('note', { text: 'Looked at the tabs.' }))])).toBe(true);
    const named = draftOf('hull', { name: 'Another name (invented)' });
    expect(taken([more(named, 1, [{ entry: entries[0]._id }])])).toBe(true);
  });

  test('is judged again where a reading is struck, a line put right or a repair stated', () => {
    const [rows] = entries.filter(({ kind }) => kind === 'import');
    const struck: Entry = { ...more(draftOf('note', { text: '-' })), kind: 'strike', body: {} };
    expect(taken([{ ...struck, strikes: [{ entry: rows._id, row: 2 }] }])).toBe(false);
    expect(taken([{ ...struck, strikes: [{ entry: rows._id }] }])).toBe(false);
    expect(taken([more(draftOf('repair', { date: '2026-11-30', what: 'Faired' }))])).toBe(false);
  });

  test('knows of a repair between two surveys, and then tells no movement', () => {
    const dates = entries.flatMap(({ kind, body }) =>
      kind === 'survey' ? [(body as { date: string }).date] : [],
    );
    const repair = draftOf('repair', { date: dates.sort()[1], what: 'Faired' });
    expect(factsOf([...entries, more(repair)]).moved).toEqual({
      outcome: 'not compared',
      why: ['repair'],
    });
  });
});

describe('the list of hulls', () => {
  const yardOn = (machine: Machine, workOut: WorkOut, engine = '1') => {
    const tab = machine.tab();
    const rescue = () => Promise.reject(new Error('nothing to rescue'));
    return { tab, yard: new Yard({ around: tab.around, engine, rescue, workOut }) };
  };

  test('has summaries worked out one after another, each with what it said before', async () => {
    const asked: (HullFacts | undefined)[] = [];
    let running = 0;
    let most = 0;
    const { tab, yard } = yardOn(new Machine(), async (all, known) => {
      asked.push(known);
      most = Math.max(most, (running += 1));
      await new Promise((done) => setTimeout(done, 5));
      running -= 1;
      return factsOf(all, known);
    });
    await yard.ready;
    for (const name of ['Turnstone', 'Dunlin', 'Knot']) await yard.newHull({ name });
    await until(() => {
      tab.pass(5_000);
      return yard.hulls.length === 3 && yard.hulls.every(({ dirty }) => !dirty);
    });
    expect(most).toBe(1);
    expect(asked).toHaveLength(3);
    const [{ hull: key, measured }] = yard.hulls;
    await yard.open(key).add([draftOf('note', { text: 'Looked at the tabs.' })]);
    await until(() => {
      tab.pass(5_000);
      return asked.length === 4;
    });
    expect(asked[3]?.measured).toBe(measured);
  });

  test('stays as it is, and to be worked out, where a summary cannot be', async () => {
    let broken = true;
    const { tab, yard } = yardOn(new Machine(), (all) =>
      broken ? Promise.reject(new Error('no')) : Promise.resolve(factsOf(all)),
    );
    await yard.ready;
    const key = await yard.newHull({ name: 'Turnstone' });
    await until(() => yard.hulls.length === 1);
    tab.pass(5_000);
    await new Promise((done) => setTimeout(done, 20));
    expect(yard.hulls).toMatchObject([{ name: 'Turnstone', dirty: true }]);
    broken = false;
    await yard.open(key).add([draftOf('note', { text: 'Again.' })]);
    await until(() => {
      tab.pass(5_000);
      return !yard.hulls[0].dirty;
    });
  });

  test('has a summary in another form worked out anew, without what it said', async () => {
    const machine = new Machine();
    const old = yardOn(machine, (all) => Promise.resolve(factsOf(all)));
    await old.yard.ready;
    await old.yard.newHull({ name: 'Turnstone' });
    await until(() => {
      old.tab.pass(5_000);
      return old.yard.hulls[0]?.dirty === false;
    });
    old.yard.close();
    expect(
      (await machine.raw(SUMMARIES).allDocs({ include_docs: true, conflicts: true })).rows,
    ).toHaveLength(1);
    const asked: (HullFacts | undefined)[] = [];
    const next = yardOn(
      machine,
      (all, known) => {
        asked.push(known);
        return Promise.resolve(factsOf(all, known));
      },
      '2',
    );
    await next.yard.ready;
    await until(() => {
      next.tab.pass(5_000);
      return next.yard.hulls[0]?.engine === '2';
    });
    expect(asked).toEqual([undefined]);
  });
});
