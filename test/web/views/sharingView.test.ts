import { describe, expect, it } from 'vitest';

import { entryId } from '../../../src/book/id.ts';
import {
  sharingRemoval,
  sharingSays,
  sharingShort,
  sharingTyped,
  type SharingFacts,
} from '../../../web/views/sharingView.ts';

const LEVEL: SharingFacts = {
  at: 'idle',
  lastExchange: '2026-05-04T09:31:00.000Z',
  waiting: 0,
  denied: [],
  odd: [],
  foreign: 0,
};
const FAILED: SharingFacts = {
  ...LEVEL,
  at: 'failed',
  waiting: 1,
  failure: { words: 'The server is off.' },
};
const utc = (): number => 0;

describe('what is said of sharing', () => {
  it('is level only when nothing waits and nothing was refused', () => {
    expect(sharingSays(LEVEL, utc).line).toBe('Level with the server.');
    expect(sharingShort(LEVEL)).toBe('Shared: level with the server.');
    expect(sharingSays({ ...LEVEL, waiting: 2 }, utc).line).not.toContain('Level');
    const denied = { ...LEVEL, denied: [{ id: 'a', why: 'no' }] };
    expect(sharingSays(denied, utc)).toMatchObject({
      line: 'The server refuses 1 of the entries.',
      alarm: true,
    });
    expect(sharingShort(denied)).toContain('refuses 1');
  });

  it('names what waits, when they were last level, and why they are not', () => {
    expect(sharingSays(FAILED, utc)).toMatchObject({
      line: 'The server is off. Trying again by itself.',
      alarm: true,
      waiting: '1 entry of this device is not on the server yet; kept here.',
      last: 'Last level with the server on 2026-05-04 at 09:31.',
    });
    expect(sharingShort(FAILED)).toBe('Not level: The server is off. 1 waiting here.');
  });
});

describe('an entry that was refused or set aside', () => {
  it('is told by its hull and when it was entered, and by its id alone where that says neither', () => {
    const hull = '0123456789ab';
    const id = entryId({ hull, survey: '0', time: 1_777_887_000_000, random: new Uint8Array(10) });
    const status = {
      ...LEVEL,
      denied: [{ id, why: 'no' }],
      odd: [{ id: 'stray', reason: 'not read' }],
    };
    const names = new Map([[hull, 'Sea Lark (invented)']]);
    expect(sharingSays(status, utc, names)).toMatchObject({
      denied: [{ id, which: 'Sea Lark (invented), entered on 2026-05-04 at 09:30', why: 'no' }],
      odd: [{ id: 'stray', which: 'Of no hull', why: 'not read' }],
    });
    expect(sharingSays(status, utc).denied[0].which).toContain('Hull without a name');
  });
});

describe('what is said of removing a hull that is shared', () => {
  it('is that the others keep it, and what would be lost while entries of it wait here', () => {
    expect(sharingRemoval('Sea Lark').words).toContain('keep what they have of it');
    expect(sharingRemoval('Sea Lark').lost).toBeUndefined();
    expect(sharingRemoval('Sea Lark', 1).lost).toContain('1 entry of it is not on the server yet');
    expect(sharingRemoval('Sea Lark', 3).lost).toContain('3 entries of it are not on the server');
  });
});

describe('what was typed of a server', () => {
  const typed = {
    server: 'server.example:6984/',
    database: ' yard ',
    user: 'ann',
    password: 'her word',
    carry: { what: 'all' },
  } as const;

  it('becomes settings', () => {
    expect(sharingTyped(typed)).toEqual({
      ok: true,
      settings: { ...typed, server: 'https://server.example:6984', database: 'yard' },
    });
  });

  it('is refused over plain http, but for this machine itself', () => {
    expect(sharingTyped({ ...typed, server: 'http://server.example' }).ok).toBe(false);
    expect(sharingTyped({ ...typed, server: 'http://127.0.0.1.example' }).ok).toBe(false);
    expect(sharingTyped({ ...typed, server: 'http://127.0.0.1:5984' }).ok).toBe(true);
  });

  it('says what is wrong, each by its field', () => {
    const read = sharingTyped({ ...typed, server: '', database: 'Yard', user: 'a:b' });
    expect(read).toMatchObject({ ok: false });
    expect(read.ok ? [] : Object.keys(read.problems)).toEqual(['server', 'database', 'user']);
  });
});
