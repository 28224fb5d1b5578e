import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Fault } from '../../../src/survey/csv/fault.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { LogReader, readLog, type LogRead } from '../../../src/survey/log/readLog.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { madeLog } from './madeLogs.ts';

const bytesOf = (text: string) => new TextEncoder().encode(text);

function logOf(text: string): LogRead {
  const read = readLog(bytesOf(text));
  if (read === undefined) throw new Error('a log expected');
  return read;
}

/** A survey's readings, from columns or one by one, as plain rows: line, lay, station, gap, weight. */
function plain(survey: Survey) {
  return survey.lines.map((line) => ({
    name: line.name,
    side: line.side,
    offset: line.offset,
    placements: line.placements.map(({ readings, log, voids, later, ...facts }) => {
      const series = log?.series;
      const rows = series
        ? Array.from(series.x, (x, i) => [x, series.gap[i], series.weight?.[i] ?? 1])
        : readings.map((r) => [r.station.mm, r.gap.mm, r.weight ?? 1]);
      rows.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
      return { ...facts, rows, voids, later };
    }),
  }));
}

/** As lines. The text of a reading that was believed when it came is not kept, so that 0.10 is then said as 0.1. */
const faultsOf = (read: { ok: boolean; faults?: readonly Fault[] }) =>
  (read.faults ?? [])
    .map((f) => {
      const expected = f.expected.replace(
        / has ([\d.]+) there/,
        (_, gap) => ` has ${Number(gap)} there`,
      );
      return `${f.row} ${f.column}: ${f.found} | ${expected}`;
    })
    .sort();

function agree(text: string): void {
  const log = logOf(text);
  const csv = readCsv(text);
  expect(faultsOf(log)).toEqual(faultsOf(csv));
  if (log.ok && csv.ok) expect(plain(log.survey)).toEqual(plain(csv.survey));
  const facts = { ...(log.ok ? log.survey : log.partial), lines: [] };
  expect({ ...(csv.ok ? csv.survey : csv.partial), lines: [] }).toEqual(facts);
  expect(log.recognised.counts.rows).toBe(csv.recognised.counts.rows);
  expect(log.recognised.counts.blank).toBe(csv.recognised.counts.blank);
  expect(log.recognised.units).toEqual(csv.recognised.units);
  expect(log.recognised.assumed).toEqual(csv.recognised.assumed);
}

const HEAD = '# kind: log\n# read to: 0.01 mm\n';
const COLUMNS = 'side,offset_mm,station_mm,gap_mm';

describe('reading a log from its bytes', () => {
  test('says the same as the reader of small files, whatever separates and ends its cells', () => {
    for (const delimiter of [',', ';', '\t'] as const) {
      for (const newline of ['\n', '\r\n', '\r']) {
        for (const comma of delimiter === ',' ? [false] : [false, true]) {
          for (const mark of ['', '\ufeff']) {
            agree(mark + madeLog({ rows: 300, delimiter, newline, comma, each: 3 }));
          }
        }
      }
    }
  });

  test('leaves a file whose header is swallowed by an open quotation mark to the reader that says so', () => {
    const text = `${HEAD}"${COLUMNS}\nport,300,0,1\n`;
    expect(readLog(bytesOf(text))).toBeUndefined();
    expect(readCsv(text)).toMatchObject({
      ok: false,
      faults: [{ found: 'a quotation mark that is never closed' }],
    });
  });

  test('says of a row without end that it is one, and passes a million empty lines by', () => {
    const endless = logOf(`${HEAD}${COLUMNS}\n${'9'.repeat(4_200_000)}`);
    expect(faultsOf(endless as never)[0]).toMatch(/^4 : a row of more than 4000000 bytes/);
    const empty = logOf(
      `${HEAD}${COLUMNS}\n${'\n'.repeat(1_000_000)}port,300,0,1\nport,300,75,0\nport,300,150,1`,
    );
    expect(empty.recognised.counts.rows).toBe(3);
  });

  test('averages a station that comes again, in whatever order rows come', () => {
    const rows = ['0,1', '300,2', '0,1.5', '600,0', '300,2.2', '900,1', '0,1.1'];
    agree(`${HEAD}${COLUMNS}\n${rows.map((row) => `p,450,${row}`).join('\n')}`);
    agree(
      `${HEAD}${COLUMNS}\n${rows
        .reverse()
        .map((row) => `p,450,${row}`)
        .join('\n')}`,
    );
  });

  test('reads inches, counted parts, fractions and units in cells as a small file is read', () => {
    agree(
      `# kind: log\nside,offset (in),station (in),gap (1/32 in)\np,18,0,5\np,18,1.5,3\np,18,2 1/2,3/64\np,18,3 in,1/16"\np,18,4,7`,
    );
  });

  test('keeps lines and lays apart, and what is said once of each', () => {
    const columns = 'line,side,offset_mm,placement,repeat,held,block_mm,look,station_mm,gap_mm';
    const rows = [
      'A,port,450,1,1,blocks,20,1,0,20.1',
      'A,port,450,1,1,,,1,300,21',
      'A,port,450,1,1,,,2,300,21.2',
      'A,port,450,2,1,resting,,1,300,1',
      'A,port,450,2,2,resting,,1,600,1',
      'A,port,450,2,1,resting,,1,900,1',
      'B,starboard,300,1,1,,,1,0,0.4',
      'A,port,450,1,1,,,1,900,20',
      'B,starboard,300,1,1,,,1,300,0.1',
      'A,port,450,2,2,resting,,1,0,0.3',
    ];
    agree(`${HEAD}${columns}\n${rows.join('\n')}`);
  });

  test('reads the wide form', () => {
    agree(
      `${HEAD}station_mm,P450mm,S450mm\n# gap unit: mm\n0,0.1,0.2\n300,,1\n600,x strake,0.3\n900,1,2`,
    );
  });

  test('reads quoted cells, doubled marks, extra columns and line breaks in notes as they stand', () => {
    agree(
      `${HEAD}${COLUMNS},note,"laser, ""id"""\n"port","450","0","0.5","a ""b""\nc",7\nport,450,300,"1,2",,\nport,450,600,1.5,plain "marks",8\nport,450,900,2,,"9"`,
    );
  });

  test('lines of conditions between and below the rows count, units among them', () => {
    agree(
      `# kind: log\nside,offset_mm,station_mm,gap\np,450,0,1\n# gap unit: mm\np,450,300,2\n# boat yard: none`,
    );
  });

  test('names every cell that cannot be, as the reader of small files does', () => {
    const rows = [
      'port,450,0,NaN',
      'port,450,30,1e9',
      'port,450,60,1000000000',
      'left,450,90,1',
      'port,,120,1',
      'port,450,,1',
      'port,450,-5,1',
      'port,450,40000,1',
      'port,450,150,-3',
      'port,450,180,31.50',
      'port,450,210,1,extra',
      'port,-450,240,1',
      'port,450,270,1.2 in',
      'port,450,300,0.8',
      'port,450,330,0.9',
      ' , , , ',
      'port,450,360,',
      'port,450,390,x through-hull',
      'port,450,390,0.7',
      'port,450,300,x strake',
    ];
    agree(`${HEAD}${COLUMNS}\n${rows.join('\n')}`);
  });

  test('a row that contradicts what was said of its line or lay is named each time', () => {
    const rows = ['P,port,450,resting,0,1', 'P,port,450,blocks,300,1', 'P,port,450,blocks,600,1'];
    agree(
      `${HEAD}line,side,offset_mm,held,station_mm,gap_mm\n${rows.join('\n')}\nP,stbd,450,,900,1`,
    );
  });

  test('a time that runs backwards within a lay is named with both rows; another lay starts anew', () => {
    const rows = (times: readonly string[]) =>
      times.map((time, i) => `p,450,${i < 4 ? 1 : 2},${300 * (i % 4)},1,${time}`).join('\n');
    const file = (times: readonly string[]) =>
      `${HEAD}side,offset_mm,placement,station_mm,gap_mm,time (s)\n${rows(times)}`;
    agree(file(['0.1', '0.2', '0.15', '0.3', '0', '1', '2', '3']));
    agree(file(['0.1', 'soon', '', '0.3', '0', '1', '2', '3']));
    agree(file(['14:00:01', '14:00:02', '13:59:59', '14:01', '2', '3', '4', '5']));
    const read = logOf(file(['0.1', '0.2', '0.15', '0.3', '0', '1', '2', '3']));
    expect(read.ok ? [] : read.faults).toEqual([
      {
        row: 6,
        column: 'time (s)',
        found: '0.15',
        expected:
          'not before 0.2, as row 5 has: the log of line P450, placement 1 runs forward in time',
      },
    ]);
  });

  test('asks for units that nobody stated, and takes them from the person', () => {
    const text = `# kind: log\nside,offset,station,gap\np,450,0,1\np,450,300,2`;
    const read = logOf(text);
    expect(read.ok ? [] : read.needs.map(({ column }) => column)).toEqual([
      'offset',
      'station',
      'gap',
    ]);
    expect(readLog(bytesOf(text), { unit: { unit: 'mm' } })?.ok).toBe(true);
  });

  test('shows the first 50 faults by row and counts the others', () => {
    const rows = Array.from({ length: 400 }, (_, i) => `port,450,${i},${i % 2 ? 'NaN' : '99'}`);
    const read = logOf(`${HEAD}${COLUMNS}\n${rows.join('\n')}`);
    if (read.ok) throw new Error('faults expected');
    expect(read.faultCount).toBe(400);
    expect(read.faults.map(({ row }) => row)).toEqual(Array.from({ length: 50 }, (_, i) => 4 + i));
  });

  test('refuses what is no text, what has no header, and a mark that is never closed', () => {
    const found = (bytes: Uint8Array) => {
      const read = readLog(bytes);
      return read === undefined || read.ok ? undefined : read.faults.map((f) => f.found);
    };
    expect(found(bytesOf(''))).toEqual(['']);
    expect(found(bytesOf('# kind: log\n'))).toEqual(['no header']);
    expect(found(bytesOf(`${HEAD}${COLUMNS}\np,450,0,\u0000`))).toEqual([
      'characters that are not text',
    ]);
    const latin = bytesOf(`${HEAD}${COLUMNS},note\np,450,0,1,a\np,450,1,1,?`);
    latin[latin.length - 1] = 0xe9;
    expect(found(latin)).toEqual(['not text in UTF-8']);
    expect(found(bytesOf(`${HEAD}${COLUMNS}\np,450,0,1\n"p,450,0,1\np,450,3,1`))).toEqual([
      'a quotation mark that is never closed',
    ]);
    expect(found(bytesOf(`${HEAD}${COLUMNS}\n`))).toEqual(['no rows']);
  });

  test('leaves a file that says nothing of a log to the other reader', () => {
    expect(readLog(bytesOf(`${COLUMNS}\np,450,0,1`))).toBeUndefined();
  });

  test('pieces of any size, cut in letters, marks and line ends, read as the whole', () => {
    const text = `\ufeff${HEAD}${COLUMNS},note\r\np,450,0,1,"é ""x"""\r\np,450,300,2,"½\r\nö"\r\np,450,600,1,\r\n`;
    const bytes = bytesOf(text);
    const whole = readLog(bytes);
    for (const size of [1, 2, 3, 5, 7]) {
      const reader = new LogReader();
      for (let at = 0; at < bytes.length; at += size) reader.push(bytes.subarray(at, at + size));
      expect(reader.finish()).toEqual({ is: 'read', read: whole });
    }
  });
});

const damage = fc.constantFrom(
  ['gap', 'NaN'],
  ['gap', '1e9'],
  ['gap', '999999999'],
  ['gap', '-4'],
  ['gap', ''],
  ['gap', 'x tab pocket'],
  ['gap', '1/32'],
  ['gap', '0.5 mm'],
  ['gap', '"0.75"'],
  ['gap', ' 0.8 '],
  ['gap', '.5'],
  ['gap', '1,5'],
  ['station', ''],
  ['station', '-1'],
  ['station', '99999'],
  ['station', 'nil'],
  ['side', ''],
  ['side', 'left'],
  ['side', 'P'],
  ['offset', ''],
  ['offset', '460'],
  ['offset', 'about 450'],
  ['row', ''],
  ['row', ',,,'],
  ['row', '# a remark: of the log'],
  ['row', 'port;450;1;1'],
) as fc.Arbitrary<[string, string]>;

describe('a damaged log', () => {
  test('is read as a small file is, fault by fault, and every row is accounted for', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            station: fc.integer({ min: 0, max: 40 }),
            gap: fc.integer({ min: 0, max: 300 }),
            broken: fc.option(damage, { freq: 4, nil: undefined }),
          }),
          { minLength: 5, maxLength: 40 },
        ),
        (rows) => {
          const lines = rows.map(({ station, gap, broken }) => {
            const cells = {
              side: 'port',
              offset: '450',
              station: String(30 * station),
              gap: (gap / 100).toFixed(2),
            };
            if (broken?.[0] === 'row') return broken[1];
            if (broken !== undefined) cells[broken[0] as keyof typeof cells] = broken[1];
            return [cells.side, cells.offset, cells.station, cells.gap].join(',');
          });
          const text = `${HEAD}${COLUMNS}\nport,450,0,0.1\nport,450,900,0.2\n${lines.join('\n')}`;
          agree(text);
          const { recognised, ...read } = logOf(text);
          const { counts } = recognised;
          const refused = read.ok ? new Set() : new Set(read.faults.map(({ row }) => row));
          // A lay that stands at one station is refused as a whole, in one sentence.
          const whole = !read.ok && read.faults.some((f) => f.expected.startsWith('stations that'));
          if (!read.ok && (whole || read.faultCount > 50)) return;
          const kept = counts.readings + counts.blank + counts.voids + counts.later;
          expect(kept + refused.size).toBe(counts.rows);
        },
      ),
      { seed: 20261125, numRuns: 400 },
    );
  });
});
