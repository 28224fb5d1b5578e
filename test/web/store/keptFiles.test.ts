import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { Survey } from '../../../src/survey/survey.ts';
import { KeptFiles } from '../../../web/store/keptFiles.ts';

const SURVEY: Survey = { conditions: {}, support: [], workUnit: 'mm', kind: 'log', lines: [] };
const HEAD = '# kind: log\n# held: resting\nside,offset_mm,station_mm,gap_mm\n';

function keptOf(text: string, sha256 = createHash('sha256').update(text).digest('hex')) {
  return { entry: 'an entry', data: new Blob([new Uint8Array(gzipSync(text))]), sha256, given: {} };
}

describe('a kept log', () => {
  const rows = Array.from({ length: 100 }, (_, i) => `port,450,${i * 10},0\n`).join('');

  it('is read as it was kept, and refused where it is another', async () => {
    const kept = new KeptFiles();
    await expect(kept.whole(SURVEY, [keptOf(HEAD + rows)])).resolves.toMatchObject({ kind: 'log' });
    await expect(kept.whole(SURVEY, [keptOf(`${HEAD}${rows} `, 'other')])).rejects.toThrow(
      'is not what it was',
    );
  });

  it('that a small file unpacks to without end is left where it is longer than any that is taken in', async () => {
    const bomb = keptOf(HEAD + 'port,450,0,0\n'.repeat(1_000_000));
    expect(bomb.data.size).toBeLessThan(50_000);
    await expect(new KeptFiles(1_000_000).whole(SURVEY, [bomb])).rejects.toThrow(
      'unpacks to more than any log',
    );
  });
});
