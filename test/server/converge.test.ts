import { beforeAll, describe, expect, it, vi } from 'vitest';

import { pace, trial } from './trial.ts';

/** `npm run trial:sharing` asks for more, and for the figures. */
const asked = process.env['AFTRUN_TRIAL_OPERATIONS'];
const operations = asked === undefined ? 40 : Number(asked);

describe('three tablets on one survey', () => {
  beforeAll(() => {
    // PouchDB says there that a missing checkpoint is no fault.
    vi.spyOn(console, 'info').mockImplementation(() => undefined);
  });

  it(
    'come to the same fold and lose nothing, however network and server went and came',
    { timeout: 600_000 },
    async () => {
      const seed = 20261128;
      const { folds, expected, stated, levelAfter } = await trial(operations, seed);
      expect(stated).toBe(4 + 3 * operations);
      for (const fold of folds) expect(fold).toBe(expected);
      if (asked === undefined) return;
      process.stdout.write(
        `three tablets, ${operations} operations each, seed ${seed}: level ${(levelAfter / 1000).toFixed(1)} s after the last reconnection; ${stated} entries on each\n`,
      );
    },
  );

  it.skipIf(asked === undefined)('tell how fast entries go', { timeout: 600_000 }, async () => {
    const { twoThousand, single } = await pace();
    const at = (share: number): string =>
      single[Math.floor(share * (single.length - 1))].toFixed(0);
    process.stdout.write(
      `2,000 entries from tablet to tablet: ${(twoThousand / 1000).toFixed(2)} s; one: median ${at(0.5)} ms, slowest ${at(1)} ms\n`,
    );
  });
});
