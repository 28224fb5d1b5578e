import { describe, expect, it } from 'vitest';

import { draftOf, stamp, stampAll, strikesToReplace } from '../../../src/survey/kinds/draft.ts';
import { idOf, mm, SIGNATURE } from '../fold/samples.ts';

const line = draftOf('line', { side: 'port', offset: mm(300) }, { ref: 'first' });
const placement = draftOf('placement', {
  line: 'first',
  name: 'first',
  repeat: 1,
  held: 'resting',
});

describe('stamp', () => {
  it('signs a draft with what it is given and nothing else', () => {
    const note = draftOf('note', { text: 'windy' }, { scope: 'survey', why: 'forgotten' });
    expect(stamp(note, { ...SIGNATURE, id: idOf(7, 'survey') })).toEqual({
      _id: idOf(7, 'survey'),
      v: 1,
      kind: 'note',
      ...SIGNATURE,
      why: 'forgotten',
      body: { text: 'windy' },
    });
  });

  it('throws when the id belongs to the hull where the survey is wanted, or has no form', () => {
    expect(() => stamp(line, { ...SIGNATURE, id: idOf(1, 'survey') })).toThrow(RangeError);
    expect(() => stamp(placement, { ...SIGNATURE, id: idOf(1, 'hull') })).toThrow(RangeError);
    expect(() => stamp(line, { ...SIGNATURE, id: 'p300' })).toThrow(RangeError);
  });
});

describe('stampAll', () => {
  it('puts ids in place of references, and leaves names that look alike', () => {
    const ids = [idOf(1, 'hull'), idOf(2, 'survey')];
    const [, laid] = stampAll([line, placement], { ...SIGNATURE, ids });
    expect(laid.body).toEqual({ line: idOf(1, 'hull'), name: 'first', repeat: 1, held: 'resting' });
  });

  it('takes a reference to no draft for an id', () => {
    const ids = [idOf(2, 'survey')];
    expect(stampAll([placement], { ...SIGNATURE, ids })[0].body).toMatchObject({ line: 'first' });
  });

  it('throws on another number of ids, and on two drafts of one ref', () => {
    expect(() => stampAll([line], { ...SIGNATURE, ids: [] })).toThrow(RangeError);
    const ids = [idOf(1, 'hull'), idOf(2, 'hull')];
    expect(() => stampAll([line, line], { ...SIGNATURE, ids })).toThrow(RangeError);
  });
});

describe('draftOf', () => {
  it('throws on a body that the kind would not read', () => {
    expect(() => draftOf('hull', { name: '' })).toThrow('hull: name: expected at least one');
  });
});

describe('strikesToReplace', () => {
  it('strikes the former and all that the former struck', () => {
    const former = stamp(line, { ...SIGNATURE, id: idOf(2, 'hull') });
    const strikes = [{ entry: idOf(1, 'hull') }, { entry: idOf(0, 'survey'), row: 3 }];
    expect(strikesToReplace({ ...former, strikes })).toEqual([
      { entry: idOf(2, 'hull') },
      ...strikes,
    ]);
  });
});
