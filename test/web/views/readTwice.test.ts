import { describe, expect, test } from 'vitest';
import { bookOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { entryId } from '../../../src/book/id.ts';
import { standing } from '../../../src/book/standing.ts';
import { draftOf, stampAll, type Draft } from '../../../src/survey/kinds/draft.ts';
import { surveyOf } from '../../../src/survey/fold/surveyOf.ts';
import { asLooks, readTwice } from '../../../web/views/readTwice.ts';

const HULL = '0123456789ab';
const SURVEY = 's0s1s2s3s4s5';
let serial = 0;

/** Entries of one device, as two people type into one survey. */
function stated(drafts: readonly Draft[], by: string, device: string): readonly Entry[] {
  const ids = drafts.map(({ scope }) => {
    const random = new Uint8Array(10);
    random[9] = serial += 1;
    return entryId({
      hull: HULL,
      survey: scope === 'hull' ? '0' : SURVEY,
      time: 1_777_887_000_000 + serial,
      random,
    });
  });
  return stampAll(drafts, { by, device, app: 'test', at: '2026-05-04T09:30:00Z', ids });
}

const begun = stated(
  [
    draftOf('line', { side: 'port', offset: { mm: 450, text: '450 mm' } }, { ref: 'line' }),
    draftOf('placement', { line: 'line', name: '1', repeat: 1, held: 'resting' } as never, {
      ref: 'lay',
    }),
  ],
  'Ann (invented)',
  'Tablet 1',
);
const placement = begun[1]._id;
const reading = (mm: number, look = 1, station = 300): Draft =>
  draftOf('reading', {
    placement,
    station: { mm: station, text: String(station) },
    gap: { mm, text: String(mm) },
    look,
  });
const stands = (entries: readonly Entry[]) => standing(bookOf([...begun, ...entries]));

const ann = stated([reading(2.5), reading(0.5, 1, 375)], 'Ann (invented)', 'Tablet 1');
const ben = stated([reading(2.7)], 'Ben (invented)', 'Tablet 2');

describe('a station that two people read', () => {
  test('is told with what each of them read and on which device; stations read once are not', () => {
    const [twice, ...others] = readTwice(stands([...ben, ...ann]).standing, SURVEY);
    expect(others).toEqual([]);
    expect(twice).toMatchObject({ placement, station: '300', look: 1 });
    expect(twice.twins.map(({ text, by, device }) => [text, by, device])).toEqual([
      ['2.5', 'Ann (invented)', 'Tablet 1'],
      ['2.7', 'Ben (invented)', 'Tablet 2'],
    ]);
  });

  test('is asked about no more once they are looks: both stand, each as a look of its own', () => {
    const now = stands([...ann, ...ben]);
    const [twice] = readTwice(now.standing, SURVEY);
    const looks = stated(asLooks(now.standing, twice), 'Ann (invented)', 'Tablet 1');
    const after = stands([...ann, ...ben, ...looks]);
    expect(readTwice(after.standing, SURVEY)).toEqual([]);
    expect(after.struck.map(({ entry }) => entry._id)).toEqual([ben[0]._id]);
    const { survey, disagreements } = surveyOf(after.standing, after.struckRows, SURVEY);
    expect(disagreements).toEqual([]);
    const at300 = survey.lines[0].placements[0].readings.filter(
      ({ station }) => station.mm === 300,
    );
    expect(at300.map(({ look, gap }) => [look, gap.mm])).toEqual([
      [1, 2.5],
      [2, 2.7],
    ]);
  });

  test('keeps looks that were there: the new one comes after them', () => {
    const second = stated([reading(2.6, 2)], 'Ann (invented)', 'Tablet 1');
    const now = stands([...ann, ...second, ...ben]);
    const drafts = asLooks(now.standing, readTwice(now.standing, SURVEY)[0]);
    expect(drafts.map(({ body }) => body['look'])).toEqual([3]);
  });

  test('is no matter of another survey', () => {
    expect(readTwice(stands([...ann, ...ben]).standing, 't0t1t2t3t4t5')).toEqual([]);
  });
});
