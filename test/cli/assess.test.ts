import { execFile, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';

// Each case starts a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const root = fileURLToPath(new URL('../../', import.meta.url));
const samples = join(root, 'fixtures/samples');
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'aftrun-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

interface Run {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

const tsx = join(root, 'node_modules/tsx/dist/cli.mjs');

/** The command line as `npm run aftrun --` starts it. */
function aftrun(...args: readonly string[]): Promise<Run> {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [tsx, join(root, 'src/cli/main.ts'), ...args],
      { cwd: samples, encoding: 'utf8' },
      (error, out, err) => {
        resolve({ status: error === null ? 0 : Number(error.code), out, err });
      },
    );
  });
}

function file(name: string, text: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

/** Keys and types of a value; arrays by their first element. */
function shape(value: unknown): unknown {
  if (Array.isArray(value)) return value.length === 0 ? [] : [shape(value[0])];
  if (typeof value !== 'object' || value === null) return typeof value;
  return Object.fromEntries(Object.entries(value).map(([key, v]) => [key, shape(v)]));
}

interface Answer {
  readonly tolerance: { readonly gap: number; readonly over: number };
  readonly houseDefaults: readonly string[];
  readonly limit: number;
  readonly edges: readonly Record<string, unknown>[];
  readonly lines: readonly Record<string, unknown>[];
  readonly remarks: readonly { readonly kind: string }[];
}

function answerOf({ out }: Run): Answer {
  return JSON.parse(out) as Answer;
}

describe('aftrun assess of the story of the twisted panel (invented)', () => {
  const story = 'stories/twisted-panel.csv';

  it('calls every line fair and the port panel twisted, and leads to the stands before filler', async () => {
    const { status, out, err } = await aftrun('assess', story);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    const words = out.replace(/\s+/g, ' ');
    const [lines, surface] = words.split('How sure, and why')[0].split('Each side as one surface');
    expect(lines.match(/: fair\b|\bfair\b/gi)?.length).toBeGreaterThanOrEqual(8);
    expect(lines).not.toMatch(/\b(hook|rocker|undecided)\b/i);
    expect(surface).toMatch(/Twisted: port, lines P150, P300, P450 and P600/);
    expect(surface).toMatch(
      /the fourth corner off the plane of the other three by \d(\.\d)? mm ± \d/,
    );
    expect(surface).toMatch(/Fill nothing yet: one stand too high or too low twists a bottom/);
    expect(surface).toMatch(/filling line by line does not take it out/);
    expect(surface).toMatch(/qualified marine surveyor/);
  });

  it('tells in --json a twist that holds the 5 mm the panel was made with', async () => {
    const found = JSON.parse((await aftrun('assess', story, '--json')).out) as {
      lines: { verdict: string[] }[];
      panels: { side: string; twist: { verdict: string; corner: number; cornerU: number } }[];
    };
    expect(found.lines.map(({ verdict }) => verdict)).toEqual(Array(8).fill(['fair']));
    const port = found.panels.find(({ side }) => side === 'port')?.twist;
    expect(port?.verdict).toBe('twisted');
    expect(Math.abs((port?.corner ?? NaN) - 5)).toBeLessThan(1.96 * (port?.cornerU ?? NaN));
  });
});

describe('aftrun assess --json', () => {
  it('prints one object with the promised keys and types, and nothing else', async () => {
    const run = await aftrun(
      ...['assess', 'metric-long.csv', '--json', '--repeatability', '0.12mm'],
    );
    expect(run).toMatchObject({ status: 0, err: '' });
    expect(run.out.endsWith('}\n')).toBe(true);
    const place = { at: 'number', from: 'number', to: 'number' };
    const budget = {
      ...{ value: 'number', u: 'number', coverage: 'number', expanded: 'number', noise: 'number' },
      sources: [
        {
          ...{ source: 'string', name: 'string', basis: 'string' },
          ...{ contribution: 'number', share: 'number' },
          ...{ type: 'string', distribution: 'string', gum: 'string' },
        },
      ],
    };
    expect(shape(answerOf(run))).toEqual({
      tolerance: { gap: 'number', over: 'number' },
      houseDefaults: ['string'],
      limit: 'number',
      repeatability: { u: 'number', from: 'string' },
      edges: [{ state: 'string', corrected: 'number', uncorrected: 'number' }],
      lines: [
        {
          line: 'string',
          side: 'string',
          offset: 'number',
          readings: 'number',
          verdict: ['string'],
          hollow: { depth: 'number', u: 'number', at: 'number', from: 'number', to: 'number' },
          hump: { height: 'number', u: 'number', at: 'number', from: 'number', to: 'number' },
          tail: { angle: 'number', u: 'number', over: 'number' },
          fairness: 'number',
          sections: [
            {
              from: 'number',
              to: 'number',
              class: 'string',
              proven: 'boolean',
              leaning: 'string',
              probability: 'number',
            },
          ],
          profile: [{ x: 'number', z: 'number', u: 'number' }],
          budget: { hump: { ...place, ...budget }, tail: budget },
          straightness: {
            leastSquares: { STRt: 'number', STRp: 'number', STRv: 'number', STRq: 'number' },
            minimumZone: { STRt: 'number' },
            readings: 'number',
            placements: 'number',
            from: 'number',
            to: 'number',
            u: 'number',
          },
        },
      ],
      remarks: [{ kind: 'string', words: 'string' }],
    });
    const { tolerance, houseDefaults, lines } = answerOf(run);
    expect(tolerance).toEqual({ gap: 1.5, over: 1500 });
    expect(houseDefaults).toEqual(['tolerance', 'limit']);
    expect(
      lines.map(({ line, side, offset, readings, verdict }) => [
        ...[line, side, offset, readings, verdict],
      ]),
    ).toEqual([
      ['P300', 'port', 300, 16, ['fair']],
      ['P700', 'port', 700, 16, ['fair']],
      ['S300', 'starboard', 300, 16, ['rocker']],
      ['S700', 'starboard', 700, 16, ['rocker']],
    ]);
  });

  it('takes each result apart by source: parts that add up, shares of 100, degrees of freedom of repeats', async () => {
    interface Source {
      readonly source: string;
      readonly contribution: number;
      readonly share: number;
      readonly type: string;
      readonly dof?: number;
    }
    const [line] = answerOf(await aftrun('assess', 'two-placements.csv', '--json')).lines;
    const budget = line['budget'] as Record<string, { u: number; dof: number; sources: Source[] }>;
    expect(Object.keys(budget)).toEqual(['hollow', 'hump', 'tail']);
    for (const { u, dof, sources } of Object.values(budget)) {
      const squares = sources.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
      expect(Math.sqrt(squares)).toBeCloseTo(u, 3);
      expect(sources.reduce((sum, { share }) => sum + share, 0)).toBe(100);
      expect(sources.find(({ source }) => source === 'repeatability')).toMatchObject({
        type: 'A',
        dof: 24,
      });
      expect(dof).toBeGreaterThan(24);
    }
    const { leastSquares, minimumZone } = line['straightness'] as {
      leastSquares: { STRt: number };
      minimumZone: { STRt: number };
    };
    expect(minimumZone.STRt).toBeLessThanOrEqual(leastSquares.STRt);
  });

  it('answers in mm whatever the file and the options are written in', async () => {
    const run = await aftrun(
      ...['assess', 'inches-wide.csv', '--json', '--tolerance', '1/16 in', '--over', '5ft'],
      ...['--resolution', '1/32"', '--repeatability', '0.15 mm', '--limit', '60in'],
    );
    expect(run.status).toBe(0);
    const { tolerance, houseDefaults, limit, lines } = answerOf(run);
    expect(tolerance).toEqual({ gap: 1.5875, over: 1524 });
    expect(limit).toBe(1524);
    expect(houseDefaults).toEqual([]);
    expect(lines[1]).toMatchObject({ line: 'P18in', offset: 457.2, verdict: ['hook'] });
  });

  it('takes what the straightedge may be out by, and says so', async () => {
    const edge = ['--edge-bound', '3mm', '--edge-length', '1800mm'];
    const run = await aftrun('assess', 'metric-long.csv', '--json', ...edge);
    const { edges, lines, remarks } = answerOf(run);
    expect(edges).toMatchObject([{ state: 'stated', bound: { size: 3, over: 1800 } }]);
    expect(lines.map((line) => line['verdict']).slice(0, 2)).toEqual([
      ['undecided'],
      ['undecided'],
    ]);
    expect(remarks.map((r) => r.kind)).not.toContain('edge not checked');
    const { out } = await aftrun('assess', 'metric-long.csv', ...edge);
    expect(out).toMatch(/stated to be within 3 mm over 1800 mm; nobody checked it/);
  });

  it('answers of a line with too few readings that it has too few, with status 0', async () => {
    const path = file(
      'few.csv',
      'side,offset_mm,station_mm,gap_mm\nport,300,0,0\nport,300,500,0\nport,300,900,0\n',
    );
    const run = await aftrun('assess', path, '--json');
    expect(run).toMatchObject({ status: 0, err: '' });
    expect(answerOf(run).lines).toEqual([
      {
        ...{ line: 'P300', side: 'port', offset: 300, readings: 3 },
        ...{ verdict: ['too few readings'], stations: 3, needed: 4 },
      },
    ]);
  });

  it('numbers the parts of a line that nothing ties', async () => {
    const rows = [0, 100, 200, 300].flatMap((x) => [
      `port,300,1,${x},0`,
      `port,300,2,${x + 800},0`,
    ]);
    const path = file(
      'parts.csv',
      ['side,offset_mm,placement,station_mm,gap_mm', ...rows].join('\n'),
    );
    const { lines, remarks } = answerOf(await aftrun('assess', path, '--json'));
    expect(lines.map(({ part, parts }) => [part, parts])).toEqual([
      [1, 2],
      [2, 2],
    ]);
    expect(remarks.map((r) => r.kind)).toEqual(['placements not tied', 'edge not checked']);
  });

  it('ends quietly when its reader stops early', async () => {
    const child = spawn(
      process.execPath,
      [tsx, join(root, 'src/cli/main.ts'), 'assess', 'metric-long.csv', '--json'],
      { cwd: samples, stdio: ['ignore', 'pipe', 'pipe'] },
    );
    child.stdout.destroy();
    let err = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
    const status = await new Promise((resolve) => child.on('close', resolve));
    expect({ status, err }).toEqual({ status: 0, err: '' });
  });

  it('gives the same answer to the last digit each time', async () => {
    const [one, two] = await Promise.all(
      [1, 2].map(() => aftrun('assess', 'two-placements.csv', '--json')),
    );
    expect(one.status).toBe(0);
    expect(two.out).toBe(one.out);
  });
});

describe('aftrun assess', () => {
  it('prints a table, each line in words, the cautions, and which defaults stood in', async () => {
    const { status, out, err } = await aftrun('assess', 'two-placements.csv');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('Tolerance 1.5 mm over 1500 mm (house default); judged to 1500 mm');
    expect(out).toMatch(
      /^line +where +verdict +hollow \(mm\) +hump \(mm\) +readings +single reading$/m,
    );
    expect(out).toMatch(
      /^P400 +port, 400 mm from the keel +Hook +\d\.\d ± 0\.\d .* 31 +± 0\.\d mm$/m,
    );
    expect(out).toMatch(/^Hook: port, 400 mm from the keel\. Hollow .* Proven\. A feature/m);
    expect(out).toMatch(
      /^Fair: starboard, 400 mm from the keel\. From 0 to 1500 mm .* 1\.5 mm is allowed\..* Proven fair\./m,
    );
    expect(out).toContain('found from repeats (24 degrees of freedom)');
    expect(out).toContain('A measurement exhibit, not a condition survey.');
    expect(out).toContain('Local codes and licensed practice come first.');
  });

  it('says of each line how sure its figures are, where the doubt comes from, and its straightness', async () => {
    const { out } = await aftrun('assess', 'two-placements.csv');
    const said = out.slice(out.indexOf('How sure, and why: P400'));
    expect(said).toMatch(
      /Most of the doubt about the hollow \(\d\d %\) is how a reading repeats: /,
    );
    expect(said).toMatch(/^ {2}source .* hollow .* tail angle .* evaluation +dof$/m);
    expect(said).toMatch(/^ {2}how a reading repeats \(found from repeats\) .* type A, .* 24$/m);
    expect(said).toMatch(/^ {2}at 95 % +± 0\.\d\d mm +± 0\.0\d\d°$/m);
    expect(said).toMatch(/^ {2}Straightness: STRt \d\.\d mm, .* ISO 12780-1, of the 31 readings/m);
    expect(said).toContain('How sure, and why: S400');
  });

  it('names the gauge division that stands in where the file states none', async () => {
    const rows = [0, 300, 600, 900, 1200, 1500].map((x) => `port,300,${x},0`);
    const text = ['# hull: \u001b[31mred', 'side,offset_mm,station_mm,gap_mm', ...rows].join('\n');
    const path = file('no-gauge.csv', text);
    const [plain, json, told] = await Promise.all([
      aftrun('assess', path),
      aftrun('assess', path, '--json'),
      aftrun('assess', path, '--resolution', '0.1mm', '--json'),
    ]);
    expect(plain.out).toContain('Gauge read to 0.5 mm (house default). Repeatability half a');
    // What would steer a terminal is not passed on.
    expect(plain.out).toMatch(/^\ufffd\[31mred$/m);
    expect(answerOf(json).houseDefaults).toEqual([
      ...['tolerance', 'limit', 'resolution', 'repeatability'],
    ]);
    expect(answerOf(told).houseDefaults).toEqual(['tolerance', 'limit', 'repeatability']);
  });

  it('says next steps under an undecided line', async () => {
    const { out } = await aftrun('assess', 'stories/not-to-blame.csv', '--tolerance', '1/16in');
    expect(out).toMatch(/^Undecided: port, 10 in from the keel\..*\n {2}Next: /m);
    expect(out).not.toContain('house default); judged');
  });
});

describe('a file that cannot be used', () => {
  it('has each faulty row on standard error, and nothing on standard output, with status 1', async () => {
    const { status, out, err } = await aftrun('assess', 'faulty-long.csv', '--json');
    expect({ status, out }).toEqual({ status: 1, out: '' });
    expect(err.trim().split('\n')).toEqual([
      'faulty-long.csv: 6 faults; nothing was assessed.',
      expect.stringMatching(/^ {2}row 4, column gap_mm: found 'o\.8', expected a length/),
      expect.stringMatching(
        /^ {2}row 6, column station_mm: found '300', expected each station once/,
      ),
      expect.stringMatching(/^ {2}row 7, column station_mm: found '-400', expected 0 or more/),
      "  row 8, column side: found 'prt', expected port, starboard or centre",
      "  row 11, column gap_mm: found '45', expected at most 30 mm",
      expect.stringMatching(/^ {2}row 12, column .*: found 'extra', expected 4 cells/),
    ]);
  });

  it('has its first 50 faults named, and the rest counted', async () => {
    const rows = Array.from({ length: 73 }, (_, i) => `port,300,${i * 10},x${i}`);
    const path = file('many.csv', ['side,offset_mm,station_mm,gap_mm', ...rows].join('\n'));
    const { status, out, err } = await aftrun('assess', path);
    expect({ status, out }).toEqual({ status: 1, out: '' });
    const lines = err.trim().split('\n');
    expect(lines).toHaveLength(52);
    expect(lines[0]).toBe(`${path}: 73 faults; nothing was assessed.`);
    expect(lines[50]).toMatch(/^ {2}row 51, column gap_mm: found 'x49'/);
    expect(lines[51]).toBe('  and 23 more');
  });

  it('may be missing, a folder, or not text in UTF-8', async () => {
    const latin = file('latin.csv', Uint8Array.from([0x67, 0xe9, 0x0a]));
    const runs = await Promise.all([
      aftrun('assess', 'no-such-file.csv'),
      aftrun('assess', 'stories'),
      aftrun('assess', latin),
    ]);
    expect(runs).toEqual([
      { status: 1, out: '', err: 'no-such-file.csv: no such file\n' },
      { status: 1, out: '', err: 'stories: a folder, expected a CSV file\n' },
      {
        status: 1,
        out: '',
        err: `${latin}: not text in UTF-8; save it as CSV in UTF-8 and try again\n`,
      },
    ]);
  });

  it('is one whose gaps state no unit: nothing is guessed', async () => {
    const path = file('unitless.csv', 'side,offset_mm,station_mm,gap\nport,300,0,1\n');
    const { status, out, err } = await aftrun('assess', path);
    expect({ status, out }).toEqual({ status: 1, out: '' });
    expect(err).toMatch(/row 1, column gap: .*expected .*unit/);
  });
});

describe('wrong arguments', () => {
  it('are answered with status 2, what was found and what is expected', async () => {
    const runs = await Promise.all([
      aftrun('assess', 'metric-long.csv', '--tolerance', '1.5'),
      aftrun('assess', 'metric-long.csv', '--limit', '0mm'),
      aftrun('assess', 'metric-long.csv', '--tolerance', '1.5m'),
      aftrun('assess', 'metric-long.csv', '--over', '999 m'),
      aftrun('assess', 'metric-long.csv', '--edge-bound', '0.3mm'),
      aftrun('assess', 'metric-long.csv', '--colour'),
      aftrun('assess'),
      aftrun('assess', 'metric-long.csv', 'inches-wide.csv'),
      aftrun('measure'),
    ]);
    for (const { status, out } of runs) expect({ status, out }).toEqual({ status: 2, out: '' });
    const said = runs.map((run) => run.err.split('\n')[0]);
    expect(said).toEqual([
      "aftrun assess: --tolerance: found '1.5', expected a length with its unit, such as 2.4 mm or 3/32 in",
      "aftrun assess: --limit: found '0mm', expected a length above 0",
      "aftrun assess: --tolerance: found '1.5m', expected a gap between 0.01 mm and 100 mm",
      "aftrun assess: --over: found '999 m', expected a length between 1 mm and 100 m",
      'aftrun assess: --edge-bound: expected beside it the length that it holds over, such as --edge-length 1800mm',
      expect.stringContaining("'--colour'"),
      'aftrun assess: a file is expected: assess FILE.csv',
      'aftrun assess: one file is expected, found also inches-wide.csv',
      "aftrun: no command 'measure'",
    ]);
  });

  it('are no arguments at all, with the usage on standard error', async () => {
    const { status, out, err } = await aftrun();
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toContain('aftrun assess FILE.csv');
  });
});

describe('help', () => {
  it('is given on standard output with status 0, before and after the command', async () => {
    const runs = await Promise.all([aftrun('help'), aftrun('--help'), aftrun('assess', '--help')]);
    for (const run of runs) expect(run).toEqual({ ...runs[0], status: 0, err: '' });
    for (const option of ['tolerance', 'over', 'resolution', 'repeatability', 'limit', 'json']) {
      expect(runs[0].out).toContain(`[--${option}`);
    }
  });
});
