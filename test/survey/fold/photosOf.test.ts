import { describe, expect, it } from 'vitest';

import { bookOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { standing } from '../../../src/book/standing.ts';
import { correctionOf, statementsOf } from '../../../src/survey/fold/correctionOf.ts';
import { photosOf } from '../../../src/survey/fold/photosOf.ts';
import { draftOf, strikesToReplace, type Draft } from '../../../src/survey/kinds/draft.ts';
import { readBody } from '../../../src/survey/kinds/readBody.ts';
import { entriesOf, mm, SIGNATURE, SURVEY, idOf } from './samples.ts';

const kept = {
  name: 'photo.jpg',
  type: 'image/jpeg',
  bytes: 300_000,
  sha256: 'a'.repeat(64),
  width: 1600,
  height: 1200,
} as const;
const photo = (caption?: string, scope: 'hull' | 'survey' = 'survey') =>
  draftOf('photo', { ...(caption !== undefined && { caption }), kept }, { scope });
const book = (entries: readonly Entry[]) => standing(bookOf(entries));
const list = (entries: readonly Entry[], survey = SURVEY) => photosOf(book(entries), survey);
/** One more entry, stated after the others. */
const then = (entries: readonly Entry[], draft: Draft, by = 'Jo (invented)'): readonly Entry[] => [
  ...entries,
  { ...entriesOf([draft], { from: entries.length })[0], by, at: '2026-05-05T10:00:00Z' },
];
const fix = (entries: readonly Entry[], id: string, body: { caption?: string }): Draft => {
  const { standing: stands } = book(entries);
  return correctionOf(stands, statementsOf(stands, 'photo', id), 'photo', { ...body, kept });
};

describe('the photos of a survey', () => {
  const [id] = [idOf(0, 'survey')];
  const first = entriesOf([photo(), photo('Stem', 'hull')]);

  it('are its own and the hull’s, with who added them and when', () => {
    expect(list(first).photos).toEqual([
      expect.objectContaining({ ofHull: true, caption: 'Stem' }),
      { id, ofHull: false, at: SIGNATURE.at, by: SIGNATURE.by, kept },
    ]);
    expect(list(first, 'zzzzzzzzzzzz').photos.map(({ ofHull }) => ofHull)).toEqual([true]);
  });

  it('keep their picture, id, day and person when the caption is put right, again and again', () => {
    const once = then(first, fix(first, id, { caption: 'Strake' }));
    const twice = then(once, fix(once, id, { caption: 'Strake, port' }), 'Max (invented)');
    const { photos, disagreements, struck } = list(twice);
    expect(photos.find((each) => each.id === id)).toEqual({
      id,
      ofHull: false,
      at: SIGNATURE.at,
      by: SIGNATURE.by,
      caption: 'Strake, port',
      kept,
      corrected: { at: '2026-05-05T10:00:00Z', by: 'Max (invented)' },
    });
    expect(disagreements).toEqual([]);
    expect(struck).toEqual([]);
  });

  it('that were struck are kept with who, when and why, under their last caption', () => {
    const named = then(first, fix(first, id, { caption: 'Blurred' }));
    const target = named[2];
    const strike: Entry = {
      ...entriesOf([photo()], { from: 9 })[0],
      _id: idOf(9, 'hull'),
      kind: 'strike',
      strikes: strikesToReplace(target),
      why: 'not this hull',
      body: { act: 'strike' },
    };
    const { photos, struck } = list([...named, strike]);
    expect(photos.map(({ caption }) => caption)).toEqual(['Stem']);
    expect(struck).toMatchObject([
      { id, caption: 'Blurred', struck: [{ by: SIGNATURE.by, why: 'not this hull' }] },
    ]);
  });

  it('take the picture of the entry that brought it, whatever a correction says of the file', () => {
    const { standing: stands } = book(first);
    const other = { ...kept, sha256: 'b'.repeat(64) };
    const sources = statementsOf(stands, 'photo', id);
    const changed = then(first, correctionOf(stands, sources, 'photo', { kept: other }));
    expect(list(changed).photos.find((each) => each.id === id)?.kept).toEqual(kept);
  });

  it('are set aside where only a correction has arrived', () => {
    const [, ...rest] = then(first, fix(first, id, { caption: 'Strake' }));
    expect(list(rest).photos).toHaveLength(1);
    expect(list(rest).setAside).toEqual([
      {
        id: rest[1]._id,
        kind: 'photo',
        reason: 'the entry that brought its picture has not arrived, or cannot be read',
      },
    ]);
  });

  it('are a disagreement where two tablets put the caption right differently', () => {
    const one = then(first, fix(first, id, { caption: 'Port' }));
    const other = then([...first, first[0]], fix(first, id, { caption: 'Starboard' }));
    const { disagreements } = list([...one, other[other.length - 1]]);
    expect(disagreements).toHaveLength(1);
    expect(disagreements[0].about).toContain('the photo “');
  });
});

describe('the body of a photo', () => {
  it.each<[string, object, string]>([
    ['a drawing that may run', { type: 'image/svg+xml' }, 'kept.type: expected image/jpeg'],
    ['a size that no tablet could show', { width: 100_000 }, 'kept.width: expected a whole number'],
    ['a size of nothing', { height: 0 }, 'kept.height: expected a whole number'],
    ['a file without its SHA-256', { sha256: 'none' }, 'kept.sha256: expected a SHA-256'],
  ])('refuses %s', (_, changed, reason) => {
    const read = readBody('photo', { kept: { ...kept, ...changed } });
    expect(read.ok ? '' : read.reason).toContain(reason);
  });

  it('takes a line and a station that it shows', () => {
    const body = { kept, caption: '', line: 'x', station: mm(300) };
    expect(readBody('photo', body)).toEqual({ ok: true, body });
  });
});
