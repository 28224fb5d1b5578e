import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { wordsOf } from '../web/sheets/samples.ts';

// Each case starts a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const root = fileURLToPath(new URL('../../', import.meta.url));
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'aftrun-exhibit-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function exhibit(...args: readonly string[]): Promise<{ status: number; err: string }> {
  const tsx = join(root, 'node_modules/tsx/dist/cli.mjs');
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [tsx, join(root, 'src/cli/main.ts'), 'exhibit', ...args],
      { cwd: join(root, 'fixtures/samples'), encoding: 'utf8' },
      (error, _out, err) => resolve({ status: error === null ? 0 : Number(error.code), err }),
    );
  });
}

describe('aftrun exhibit', () => {
  it('writes the record of a survey with its hull’s history as one file that loads nothing', async () => {
    const out = join(folder, 'exhibit.html');
    const files = ['season-2026.csv', 'season-2024.csv', 'season-2025.csv'];
    const run = await exhibit(...files, '--out', out);
    expect(run.status).toBe(0);
    const html = readFileSync(out, 'utf8');
    expect(html).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
    const words = wordsOf(html);
    expect(words).toContain('P700, PORT, 700 mm from the KEEL: Hook');
    expect(words).toMatch(/Changed since 2025-\d\d-\d\d.*P700 Moved\./);
    expect(words).toContain('Measured Name Signature Date');
  });

  it('says where the files are of more than one hull', async () => {
    const files = ['season-2026.csv', 'inches-wide.csv'];
    const run = await exhibit(...files, '--out', join(folder, 'two.html'));
    expect(run.err).toContain(
      'the files name more than one hull: Quiet Ebb (invented); Marsh Heron (invented)',
    );
    expect(run.status).toBe(0);
  });

  it.each([
    [['season-2026.csv'], 2, '--out: expected the file to write'],
    [['--out', 'x.html'], 2, 'a file is expected'],
    [['season-2026.csv', '--owt', 'x.html'], 2, "no option '--owt'; aftrun --help lists them\n"],
    [['season-2026.csv', '--out', 'x.html', '--paper', 'A3'], 2, "--paper: found 'A3', expected"],
    [['season-2026.csv', 'none.csv', '--out', 'x.html'], 1, 'none.csv: no such file'],
    [['season-2026.csv', '--out', 'no/such/folder/x.html'], 1, 'no/such/folder/x.html: '],
  ])('refuses %j with status %i, saying why', async (args, status, words) => {
    const run = await exhibit(...args);
    expect(run.status).toBe(status);
    expect(run.err).toContain(words);
  });
});
