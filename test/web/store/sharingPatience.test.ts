import { describe, expect, it } from 'vitest';

import { Patience } from '../../../web/store/sharing/patience.ts';

/** Pauses that end at once, and how long each would have been. */
function patience(chance: number): { readonly one: Patience; readonly pauses: number[] } {
  const pauses: number[] = [];
  const one = new Patience({
    after: (milliseconds, call) => {
      pauses.push(milliseconds);
      queueMicrotask(call);
      return () => undefined;
    },
    random: () => new Uint8Array([chance]),
  });
  return { one, pauses };
}

async function pausesOf(
  kind: Parameters<Patience['pause']>[0],
  tries: number,
  chance = 0,
): Promise<readonly number[]> {
  const { one, pauses } = patience(chance);
  for (let n = 0; n < tries; n += 1) {
    one.begin();
    await one.pause(kind);
  }
  return pauses;
}

describe('pauses between tries of a server', () => {
  it('grow to 6 s and no further, however long it is away', async () => {
    expect(await pausesOf('unreachable', 20)).toEqual([
      1_000,
      2_000,
      4_000,
      ...Array.from({ length: 17 }, () => 6_000),
    ]);
  });

  it('grow to 30 s where somebody has to put something right first', async () => {
    const pauses = await pausesOf('password', 5);
    expect(pauses).toEqual([1_000, 5_000, 10_000, 30_000, 30_000]);
  });

  it('are shorter by chance, and by a quarter at most', async () => {
    expect(await pausesOf('offline', 4, 255)).toEqual([750, 1_500, 3_000, 4_500]);
  });

  it('are left out once where somebody hurried during the try', async () => {
    const { one, pauses } = patience(0);
    one.begin();
    one.hurry();
    await one.pause(undefined);
    expect(pauses).toEqual([]);
    one.begin();
    await one.pause(undefined);
    expect(pauses).toHaveLength(1);
  });
});
