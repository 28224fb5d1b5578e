import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';

// Each case starts a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const root = fileURLToPath(new URL('../../', import.meta.url));
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'aftrun-hostile-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function aftrun(...args: readonly string[]): Promise<{ status: number; out: string; err: string }> {
  const tsx = join(root, 'node_modules/tsx/dist/cli.mjs');
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [tsx, join(root, 'src/cli/main.ts'), ...args],
      { encoding: 'utf8' },
      (error, out, err) => resolve({ status: error === null ? 0 : Number(error.code), out, err }),
    );
  });
}

const MARKUP = `<img src=x onerror=alert(1)>"'</style><script>alert(2)</script>`;
const SURVEY = [
  `# hull: ${MARKUP}`,
  `# ${MARKUP}: ${MARKUP}`,
  '# held: resting',
  '# read to: 0.5 mm',
  '# support: blocks and stands',
  `# support checked by: ${MARKUP}`,
  `# edge: ${MARKUP}`,
  'side,offset_mm,station_mm,gap_mm,line,void,note',
  ...[0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100, 1200].map(
    (station) =>
      `port,450,${station},${station % 600 > 200 ? 4 : 0},${cell(MARKUP)},,${cell(MARKUP)}`,
  ),
  `port,450,1300,,${cell(MARKUP)},${cell(MARKUP)},`,
].join('\n');

function cell(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

describe('a survey that is all markup', () => {
  it.each(['worksheet', 'exhibit'])('is text on the %s, and no more', async (command) => {
    const file = join(folder, 'markup.csv');
    writeFileSync(file, SURVEY);
    const out = join(folder, `${command}.html`);
    const run = await aftrun(command, file, '--out', out);
    expect(run.status, run.err).toBe(0);
    const html = readFileSync(out, 'utf8');
    expect(html).toContain('&lt;img src=x onerror=alert(1)>');
    // Between tags, and within their attributes, no text has ended what it stands in.
    expect(html).not.toMatch(/<script|<img/i);
    expect(html.match(/<style/g)?.length).toBe(html.match(/<\/style/g)?.length);
    expect(html.match(/\sonerror=/g)?.length).toBe(html.match(/&lt;img src=x onerror=/g)?.length);
  });
});

describe('a file', () => {
  it('that a sheet is made from is not written over', async () => {
    const file = join(folder, 'own.csv');
    writeFileSync(file, SURVEY);
    const run = await aftrun('worksheet', file, '--out', join(folder, '.', 'own.csv'));
    expect(run).toMatchObject({ status: 1, out: '' });
    expect(run.err).toContain('is read from, expected another file to write to');
    expect(readFileSync(file, 'utf8')).toBe(SURVEY);
  });

  it('that never ends, or is longer than is read, is left with a plain word', async () => {
    const long = join(folder, 'long.csv');
    writeFileSync(long, '');
    // Sparse: it takes no room.
    truncateSync(long, 1_100_000_000);
    const runs = await Promise.all([aftrun('running', '/dev/zero'), aftrun('assess', long)]);
    expect(runs.map(({ status }) => status)).toEqual([1, 1]);
    expect(runs[0].err).toBe('/dev/zero: longer than 4 MB, which is the most that is read\n');
    expect(runs[1].err).toBe(`${long}: longer than 1000 MB, which is the most that is read\n`);
  });

  it('of one line of 100 MB is refused, with how long it is', async () => {
    const file = join(folder, 'line.csv');
    writeFileSync(
      file,
      `side,offset_mm,station_mm,gap_mm\nport,450,0,${'9'.repeat(100_000_000)}\n`,
    );
    const run = await aftrun('assess', file);
    expect(run).toMatchObject({ status: 1, out: '' });
    expect(run.err).toMatch(
      /^\S+line\.csv: more than 8000000 characters; a log of so much says # kind: log/,
    );
  });

  it('of a boat nested 100,000 deep is refused', async () => {
    const file = join(folder, 'deep.json');
    writeFileSync(file, `{"beam":${'['.repeat(100_000)}${']'.repeat(100_000)}}`);
    const run = await aftrun('running', file);
    expect(run).toMatchObject({ status: 1, out: '' });
    expect(run.err).toContain('beam: found a list of 1, expected a length');
  });
});
