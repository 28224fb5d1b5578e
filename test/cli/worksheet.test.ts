import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { sampleView, wordsOf } from '../web/sheets/samples.ts';

// Each case starts a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const root = fileURLToPath(new URL('../../', import.meta.url));
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'aftrun-worksheet-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function worksheet(...args: readonly string[]): Promise<{ status: number; err: string }> {
  const tsx = join(root, 'node_modules/tsx/dist/cli.mjs');
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [tsx, join(root, 'src/cli/main.ts'), 'worksheet', ...args],
      { cwd: join(root, 'fixtures/samples'), encoding: 'utf8' },
      (error, _out, err) => resolve({ status: error === null ? 0 : Number(error.code), err }),
    );
  });
}

describe('aftrun worksheet', () => {
  it('writes the sheet that the app prints, every station of it, as one file that loads nothing', async () => {
    const out = join(folder, 'sheet.html');
    const run = await worksheet('inches-wide.csv', '--out', out, '--paper', 'Letter');
    expect(run.status).toBe(0);
    expect(run.err).toContain('not stated in inches-wide.csv: ');
    const html = readFileSync(out, 'utf8');
    expect(html).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
    const words = wordsOf(html);
    expect(words).toContain('Ask before the boat rolls out');
    for (const { rows } of sampleView('inches-wide', { paper: 'Letter' }).lines) {
      for (const row of rows) {
        if (row.is !== 'work') continue;
        const cells = [row.station, row.fill, row.grind, row.reading].filter((cell) => cell !== '');
        expect(words).toContain(cells.join(' '));
      }
    }
  });

  it.each([
    [['inches-wide.csv'], 2, '--out: expected the file to write'],
    [
      ['inches-wide.csv', '--out', 'x.html', '--paper', 'A3'],
      2,
      "--paper: found 'A3', expected A4",
    ],
    [['inches-wide.csv', '--out', 'x.html', '--grind-limit', '0.5'], 2, '--grind-limit: found'],
    [['inches-wide.csv', '--out', 'x.html', '--way', 'magic'], 2, "--way: found 'magic'"],
    [['none.csv', '--out', 'x.html'], 1, 'none.csv: no such file'],
    [['inches-wide.csv', '--out', 'no/such/folder/x.html'], 1, 'no/such/folder/x.html: '],
  ] as const)(
    'refuses %s with status %i, saying what was expected',
    async (args, status, words) => {
      const run = await worksheet(...args);
      expect(run.status).toBe(status);
      expect(run.err).toContain(words);
    },
  );
});
