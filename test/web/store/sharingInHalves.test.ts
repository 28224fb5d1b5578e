import { describe, expect, it } from 'vitest';

import { inHalves } from '../../../web/store/sharing/inHalves.ts';

const ids = Array.from({ length: 2_000 }, (_, n) => `entry ${n}`);

interface Given {
  /** Whether it fails with these, at that try. */
  readonly fails?: (some: readonly string[], tries: number) => boolean;
  readonly answers?: () => Promise<void>;
  readonly signal?: AbortSignal;
}

async function tried({ fails = () => false, answers, signal }: Given): Promise<{
  readonly done: readonly string[];
  readonly without: readonly string[];
  readonly tries: number;
}> {
  const without: string[] = [];
  let tries = 0;
  const done = await inHalves<readonly string[]>(ids, {
    atOnce: 500,
    act: (some) => {
      tries += 1;
      return fails(some, tries) ? Promise.reject(new Error('no')) : Promise.resolve(some);
    },
    without: (id) => {
      without.push(id);
      return [];
    },
    answers: answers ?? (() => Promise.resolve()),
    signal: signal ?? new AbortController().signal,
  });
  return { done: done.flat(), without, tries };
}

describe('what is done in halves', () => {
  it('is done in parts of the size given, in order, where nothing fails', async () => {
    expect(await tried({})).toEqual({ done: ids, without: [], tries: 4 });
  });

  it('leaves out only the one that stops it, in few tries', async () => {
    const { done, without, tries } = await tried({ fails: (some) => some.includes('entry 731') });
    expect(without).toEqual(['entry 731']);
    expect(done).toEqual(ids.filter((id) => id !== 'entry 731'));
    expect(tries).toBeLessThan(30);
  });

  it('loses hardly a try, and leaves out nothing, where it fails once for another reason', async () => {
    const { done, without, tries } = await tried({ fails: (_, n) => n === 2 });
    expect(without).toEqual([]);
    expect(done).toEqual(ids);
    expect(tries).toBe(6);
  });

  it('leaves out none that failed alone once only', async () => {
    let alone = 0;
    const fails = (some: readonly string[]): boolean =>
      some.includes('entry 5') && (some.length > 1 || (alone += 1) === 1);
    expect((await tried({ fails })).without).toEqual([]);
  });

  it('rejects, and leaves out nothing, where nobody answers any more', async () => {
    const gone = new Error('nobody answers');
    const trying = tried({ fails: () => true, answers: () => Promise.reject(gone) });
    await expect(trying).rejects.toBe(gone);
  });

  it('rejects when it is called off, since the rest is not done', async () => {
    const off = new AbortController();
    const fails = (_: readonly string[], tries: number): boolean => {
      if (tries === 2) off.abort();
      return false;
    };
    await expect(tried({ fails, signal: off.signal })).rejects.toThrow(/abort/i);
  });
});
