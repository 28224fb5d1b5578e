import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';

// Each case starts a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const root = fileURLToPath(new URL('../../', import.meta.url));
const samples = join(root, 'fixtures/samples');
const seasons = ['season-2024.csv', 'season-2025.csv', 'season-2026.csv'];
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'aftrun-seasons-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** The command line as `npm run aftrun --` starts it, among the samples. */
function aftrun(...args: readonly string[]) {
  return new Promise<{ readonly status: number; readonly out: string; readonly err: string }>(
    (resolve) => {
      execFile(
        process.execPath,
        [join(root, 'node_modules/tsx/dist/cli.mjs'), join(root, 'src/cli/main.ts'), ...args],
        { cwd: samples, encoding: 'utf8' },
        (error, out, err) => resolve({ status: error === null ? 0 : Number(error.code), out, err }),
      );
    },
  );
}

interface Compared {
  readonly comparisons: readonly {
    readonly first: { readonly date: string };
    readonly second: { readonly date: string };
    readonly unlike: readonly { readonly what: string; readonly accepted: boolean }[];
    readonly lines: readonly { readonly line: string; readonly outcome: string }[];
  }[];
}

describe('aftrun compare', () => {
  it('compares each survey with the next and the first with the last, by date, in JSON', async () => {
    const run = await aftrun('compare', seasons[2], seasons[0], seasons[1], '--json');
    expect(run).toMatchObject({ status: 0, err: '' });
    const { comparisons } = JSON.parse(run.out) as Compared;
    expect(comparisons.map(({ first, second }) => [first.date, second.date])).toEqual([
      ['2024-04-14', '2025-04-15'],
      ['2025-04-15', '2026-04-16'],
      ['2024-04-14', '2026-04-16'],
    ]);
    for (const { lines } of comparisons) {
      const moved = lines.filter(({ outcome }) => outcome === 'moved');
      expect(moved.map(({ line }) => line)).toEqual(['P700']);
    }
  });

  it('says in words what moved, and at the top what is not alike', async () => {
    const run = await aftrun(
      'compare',
      'stories/bunk-hook-hour-3.csv',
      'stories/bunk-hook-next-year-longer-bunks.csv',
    );
    expect(run.status).toBe(0);
    expect(run.out).toMatch(/^Plover \(invented\): 2025-10-02 compared with 2026-10-05\n/);
    expect(run.out).toMatch(/The surveys differ in what the hull stood on/);
    expect(run.out).toMatch(/Not compared: P16in/);
    expect(run.out.indexOf('differ in')).toBeLessThan(run.out.indexOf('Not compared: P16in'));
  });

  it('compares what differs once that is accepted', async () => {
    const run = await aftrun(
      'compare',
      'stories/bunk-hook-hour-3.csv',
      'stories/bunk-hook-next-year-longer-bunks.csv',
      ...['--accept', 'support', '--json'],
    );
    const [{ unlike, lines }] = (JSON.parse(run.out) as Compared).comparisons;
    expect(unlike[0]).toMatchObject({ what: 'support', accepted: true });
    expect(lines.map(({ outcome }) => outcome)).toEqual(['moved', 'moved']);
  });

  it('takes repairs from a file’s conditions as from the command line', async () => {
    const text = readFileSync(join(samples, seasons[1]), 'utf8');
    const file = join(folder, 'repaired.csv');
    writeFileSync(file, `# repair: 2025-01-10; P700; filled\n${text}`);
    const stated = await aftrun('compare', seasons[0], file, '--json');
    const asked = await aftrun(
      ...['compare', seasons[0], seasons[1], '--json', '--repair', '2025-01-10; P700; filled'],
    );
    expect(stated.out).toBe(asked.out);
    const [{ lines }] = (JSON.parse(stated.out) as Compared).comparisons;
    expect(lines.map(({ outcome }) => outcome)).toEqual([
      'not moved',
      'not compared',
      'not moved',
      'not moved',
    ]);
  });

  it.each([
    [['compare', 'season-2024.csv'], /2 files or more are expected/],
    [['compare', 'a.csv', 'b.csv', '--accept', 'weather'], /--accept: found 'weather'/],
    [['compare', 'a.csv', 'b.csv', '--movement', '2'], /--movement: found '2'/],
    [['compare', 'a.csv', 'b.csv', '--repair', 'spring; filled'], /--repair: found/],
    [['trend', 'a.csv', 'b.csv', '--colour'], /--colour/],
    [['compare', 'a.csv', 'b.csv', '--csv'], /--csv is of `trend` only/],
    [['trend', 'a.csv', 'b.csv', '--csv', '--json'], /--csv or --json, not both/],
  ])('refuses wrong arguments with status 2: %j', async (args, reason) => {
    const run = await aftrun(...args);
    expect(run).toMatchObject({ status: 2, out: '' });
    expect(run.err).toMatch(reason);
  });

  it('ends with status 1 where a file cannot be used, and says which', async () => {
    const run = await aftrun('compare', seasons[0], 'faulty-long.csv');
    expect(run).toMatchObject({ status: 1, out: '' });
    expect(run.err).toMatch(/faulty-long\.csv: \d+ faults/);
  });
});

describe('aftrun trend', () => {
  it('names port 700, its rate a year, and that no other line shows a trend', async () => {
    const run = await aftrun('trend', ...seasons);
    expect(run).toMatchObject({ status: 0, err: '' });
    expect(run.out).toMatch(
      /P700 \(port, 700 mm from the keel\)\n {2}Hollow: Growing\. By \d\.\d mm ± \d\.\d mm a year, from 3 surveys\./,
    );
    expect(run.out.match(/Hollow: No trend shown/g)).toHaveLength(3);
    expect(run.out.match(/5 surveys are needed/g)).toHaveLength(1);
  });

  it('gives the same as one object in JSON', async () => {
    const run = await aftrun('trend', ...seasons, '--json');
    const { lines, pairs } = JSON.parse(run.out) as {
      readonly lines: readonly {
        readonly line: string;
        readonly baselines: readonly {
          readonly trends: readonly { readonly measure: string; readonly trend: string }[];
        }[];
      }[];
      readonly pairs: readonly { readonly port: string; readonly starboard: string }[];
    };
    const shown = lines.flatMap(({ line, baselines }) =>
      baselines[0].trends
        .filter(({ trend }) => trend === 'shown')
        .map(({ measure }) => `${line} ${measure}`),
    );
    expect(shown).toEqual(['P700 hollow', 'P700 tail angle']);
    expect(pairs.map(({ port, starboard }) => [port, starboard])).toEqual([
      ['P300', 'S300'],
      ['P700', 'S700'],
    ]);
  });

  it('gives every figure as CSV, a row for each survey, line and measure', async () => {
    const run = await aftrun('trend', ...seasons, '--csv');
    expect(run).toMatchObject({ status: 0, err: '' });
    expect(run.out).toMatch(/^hull,date,line,side,offset_mm,.*\r\n/);
    expect(
      run.out.match(/^Quiet Ebb \(invented\),2024-04-14,P700,port,700,,,hollow,/gm),
    ).toHaveLength(1);
  });
});
