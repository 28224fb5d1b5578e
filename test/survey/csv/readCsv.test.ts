import { describe, expect, it } from 'vitest';

import { readCsv, type CsvRead, type ReadCsvOptions } from '../../../src/survey/csv/readCsv.ts';
import type { Placement, Survey } from '../../../src/survey/survey.ts';

const head = 'side,offset_mm,station_mm,gap_mm';

function read(lines: readonly string[], options?: ReadCsvOptions): CsvRead {
  return readCsv(lines.join('\n'), options);
}

function survey(lines: readonly string[], options?: ReadCsvOptions): Survey {
  const result = read(lines, options);
  if (!result.ok) throw new Error(JSON.stringify(result.faults));
  return result.survey;
}

function placement(lines: readonly string[], options?: ReadCsvOptions): Placement {
  const [first] = survey(lines, options).lines[0]?.placements ?? [];
  if (first === undefined) throw new Error('no placement');
  return first;
}

function faults(lines: readonly string[], options?: ReadCsvOptions): string[] {
  const result = read(lines, options);
  if (result.ok) throw new Error('expected faults');
  return result.faults.map((f) => `${f.row} | ${f.column} | ${f.found} | ${f.expected}`);
}

describe('splitting a file', () => {
  it('takes quoted cells with delimiters, doubled quotes and line breaks as RFC 4180 has them', () => {
    // RFC 4180, section 2, rules 5 to 7.
    const lines = [`${head},note`, 'port,300,0,1,"a, ""b""', 'c"', 'port,300,100,x y,'];
    const result = placement(lines);
    expect(result.readings[0]?.note).toBe('a, "b"\nc');
    expect(result.voids[0]?.source).toBe('row 4');
  });

  it.each([
    ['LF', '\n'],
    ['CRLF', '\r\n'],
    ['CR', '\r'],
  ])('reads %s line ends, with or without one at the end', (_, end) => {
    const lines = [
      '# held: resting',
      '',
      `${head},note`,
      'port,300,0,1,"last"',
      'port,300,100,2,b',
    ];
    for (const text of [lines.join(end), lines.join(end) + end]) {
      const result = readCsv(text);
      expect(result).toMatchObject({ ok: true, recognised: { counts: { rows: 2 } } });
      const readings = result.ok ? result.survey.lines[0]?.placements[0]?.readings : [];
      expect(readings?.map(({ note, source }) => [note, source])).toEqual([
        ['last', 'row 4'],
        ['b', 'row 5'],
      ]);
    }
  });

  it('reads commas, semicolons and tabs alike, and a stated separator', () => {
    const rows = [head, 'port,300,0,1', 'port,300,100,2.5'];
    const expected = survey(rows);
    for (const mark of [';', '\t']) {
      expect(survey(rows.map((row) => row.replaceAll(',', mark)))).toEqual(expected);
    }
    const stated = survey(['sep=;', ...rows.map((row) => row.replaceAll(',', ';'))]);
    expect(stated.lines[0]?.placements[0]?.readings).toHaveLength(2);
  });

  it('reads what a spreadsheet makes of a file with # lines: quoted and padded', () => {
    const padded = survey([
      '# hull: Grey Teal (invented),,,',
      '"# support: trailer, bunks end 10 in forward",,,',
      head,
      'port,300,0,1',
      'port,300,100,2',
      '# surface: bare, scraped,,,',
      ',,,',
    ]);
    expect(padded).toMatchObject({
      hull: 'Grey Teal (invented)',
      support: [{ what: 'trailer, bunks end 10 in forward' }],
      conditions: { surface: 'bare, scraped' },
    });
  });

  it.each([
    ['', '', 'a CSV file with a header and a row a reading'],
    ['  \n\n', '', 'a CSV file with a header and a row a reading'],
    ['\ufeff', '', 'a CSV file with a header and a row a reading'],
    ['PNG\u0000\u0001\u0002', 'characters that are not text', 'a CSV file as plain text in UTF-8'],
    ['# hull: Teal\n# held: resting', 'no header', 'a header row after the # lines'],
  ])('calls a file that is none unreadable: %j', (text, found, expected) => {
    expect(readCsv(text)).toMatchObject({
      ok: false,
      faults: [{ row: 1, column: '', found, expected }],
      partial: { lines: [] },
    });
  });

  it('says so where a quotation mark is never closed', () => {
    expect(faults([`${head},note`, 'port,300,0,1,"begun', 'port,300,100,2,'])).toEqual([
      '2 |  | a quotation mark that is never closed | quoted cells closed by a "',
    ]);
  });

  it('says so where there is a header and no row, or no header that it knows', () => {
    expect(faults([head])).toEqual(['1 |  | no rows | a row a reading below the header']);
    const known =
      'a header: side, offset, station and gap; or station and a column a line, headed like P450mm or S18in';
    expect(faults(['port,300,0,1', 'port,300,100,2'])).toEqual([`1 |  | port 300 0 1 | ${known}`]);
    expect(faults(['station_mm,gap_mm', '0,1'])).toEqual([
      '1 | side |  | a side column beside the gap column',
      '1 | offset |  | an offset column beside the gap column',
    ]);
  });
});

describe('units', () => {
  it.each([
    ['gap_mm', '2.5', 2.5, '2.5'],
    ['Gap (mm)', '2.5', 2.5, '2.5'],
    ['gap [in]', '3/32', 2.38125, '3/32'],
    ['gap in', '0.5', 12.7, '0.5'],
    ['gap (1/32 in)', '5', 3.96875, '5/32'],
    ['gap_inches', '1/32', 0.79375, '1/32'],
  ])('takes the unit of %s from the header', (gap, cell, mm, text) => {
    const result = placement([`side,offset_mm,station_mm,${gap}`, `port,300,0,${cell}`]);
    expect(result.readings[0]?.gap).toEqual({ mm, text });
  });

  it('asks for a unit that nothing states, and guesses nothing', () => {
    const lines = ['side,offset_mm,station_mm,gap', 'port,300,0,1', 'port,300,100,3 in'];
    expect(read(lines)).toMatchObject({
      ok: false,
      needs: [{ column: 'gap', header: 'gap', row: 1 }],
      faults: [
        {
          row: 1,
          column: 'gap',
          found: 'gap',
          expected:
            'the unit of gap: in the header as gap_mm, gap (in) or gap (1/32 in), in a "# gap unit: mm" line, or given beside the file',
        },
      ],
      partial: { lines: [] },
    });
  });

  it('takes the unit from a # line, or from the person', () => {
    const lines = ['side,offset_mm,station_mm,gap', 'port,300,0,3'];
    const expected = { mm: 2.38125, text: '3/32' };
    expect(placement(['# gap unit: 1/32 in', ...lines]).readings[0]?.gap).toEqual(expected);
    const given = { units: { gap: { unit: 'in', denominator: 32 } } } as const;
    expect(placement(lines, given).readings[0]?.gap).toEqual(expected);
    expect(placement(lines, { unit: { unit: 'mm' } }).readings[0]?.gap.mm).toBe(3);
  });

  it('needs none where every cell states its own', () => {
    const lines = [
      'side,offset_mm,station_mm,gap',
      'port,300,0,2.4 mm',
      'port,300,100,',
      'port,300,200,3mm',
    ];
    expect(placement(lines).readings.map(({ gap }) => gap)).toEqual([
      { mm: 2.4, text: '2.4 mm' },
      { mm: 3, text: '3mm' },
    ]);
  });

  it('calls a cell that contradicts its column mixed units', () => {
    const mixed = "as the column's other cells (mixed units)";
    expect(faults([head, 'port,300,0,1', 'port,300,100,3/32"'])).toEqual([
      `3 | gap_mm | 3/32" | millimetres, ${mixed}`,
    ]);
    expect(
      faults(['side,offset_mm,station_mm,gap', 'port,300,0,2 mm', 'port,300,100,3/32 in']),
    ).toEqual([`3 | gap | 3/32 in | millimetres, ${mixed}`]);
    expect(faults(['# gap unit: in', head, 'port,300,0,1'])).toEqual([
      '2 | gap_mm | gap_mm | inches, as the "gap unit" line says, or no such line (mixed units)',
    ]);
  });

  it('refuses a unit that it does not know', () => {
    expect(faults(['side,offset_mm,station_mm,gap (furlong)', 'port,300,0,1'])[0]).toBe(
      '1 | gap (furlong) | furlong | a unit such as mm, in or 1/32 in behind the name',
    );
  });

  it('refuses 1,200 in a comma file, and reads 1,2 and 1,234 in a semicolon file', () => {
    expect(faults([head, 'port,300,"1,200",1'])[0]).toContain('1200 or 1.200');
    const lines = ['side;offset_mm;station_mm;gap_mm', 'port;300;0;1,2', 'port;300;100;1,234'];
    expect(placement(lines).readings.map(({ gap }) => gap.mm)).toEqual([1.2, 1.234]);
    expect(faults([...lines, 'port;300;1.200;2,5'])[0]).toContain('4 | station_mm | 1.200 |');
  });

  it('takes inches as the unit of work where stations or gaps are in inches', () => {
    expect(survey([head, 'port,300,0,1']).workUnit).toBe('mm');
    expect(survey(['side,offset_mm,station_in,gap_mm', 'port,300,0,1']).workUnit).toBe('in');
    const named = survey(['side,offset_in,station_in,gap_in', 'port,17.5,0,0', 's,18,0,0']);
    expect(named.lines.map(({ name }) => name)).toEqual(['P17.5in', 'S18in']);
  });
});

describe('long form', () => {
  it('takes sides by word or letter, in any case', () => {
    const words = ['Port', 'P', 'STARBOARD', 's', 'centre', 'C'];
    const { lines } = survey([head, ...words.map((side, i) => `${side},300,${i},1`)]);
    expect(lines.map(({ name, placements }) => [name, placements[0]?.readings.length])).toEqual([
      ['P300', 2],
      ['S300', 2],
      ['C300', 2],
    ]);
  });

  it('keeps absent, void, later and 0 apart', () => {
    const result = read([
      `${head},void,later`,
      'port,300,0,0,,',
      'port,300,100,,,',
      'port,300,200,,strake,',
      'port,300,300,x tab pocket,,',
      'port,300,400,,,a stand in the way',
    ]);
    expect(result.recognised.counts).toMatchObject({ readings: 1, blank: 1, voids: 2, later: 1 });
    const kept = result.ok ? result.survey.lines[0]?.placements[0] : undefined;
    expect(kept?.readings.map(({ gap }) => gap)).toEqual([{ mm: 0, text: '0' }]);
    expect(kept?.voids.map(({ reason }) => reason)).toEqual(['strake', 'tab pocket']);
    expect(kept?.later.map(({ station, reason }) => [station.mm, reason])).toEqual([
      [400, 'a stand in the way'],
    ]);
  });

  it('keeps both looks at a station', () => {
    const { readings } = placement([`${head},look`, 'port,300,0,1,', 'port,300,0,1.2,2']);
    expect(readings.map(({ gap, look }) => [gap.mm, look])).toEqual([
      [1, 1],
      [1.2, 2],
    ]);
  });

  it('says how finely each reading was read where it differs, and once where it does not', () => {
    const same = placement([`${head},read_to`, 'port,300,0,1,0.5 mm', 'port,300,100,2,0.5 mm']);
    expect(same.division).toBe(0.5);
    expect(same.readings.map(({ division }) => division)).toEqual([undefined, undefined]);
    const rows = [`${head},read_to_mm`, 'port,300,0,1,', 'port,300,100,2,0.1'];
    const differs = placement(['# read to: 0.5 mm', ...rows]);
    expect(differs.division).toBe(0.5);
    expect(differs.readings.map(({ division }) => division)).toEqual([undefined, 0.1]);
  });

  it('knows the times of a log, which have to run forward, and those of a hand survey not', () => {
    const rows = [`${head},time_s`, 'port,300,0,1,0', 'port,300,100,2,1'];
    expect(read(['# kind: log', ...rows]).warnings).toEqual([]);
    expect(read(rows).warnings.map(({ column }) => column)).toEqual(['time_s']);
  });

  it('keeps cells of columns that it does not know beside the reading, and warns', () => {
    const result = read([`${head},moisture,__proto__`, 'port,300,0,1,12 %,x', 'port,300,100,2,,']);
    expect(result.warnings).toEqual([
      {
        row: 1,
        column: 'moisture',
        text: 'not known, kept as written beside the readings: "moisture", "__proto__"',
      },
    ]);
    const readings = result.ok ? result.survey.lines[0]?.placements[0]?.readings : undefined;
    expect(Object.entries(readings?.[0]?.extra ?? {})).toEqual([
      ['moisture', '12 %'],
      ['__proto__', 'x'],
    ]);
    expect(readings?.[1]).not.toHaveProperty('extra');
    expect(({} as Record<string, unknown>)['moisture']).toBeUndefined();
  });

  it('warns of a note that has no reading to stand beside', () => {
    expect(read([`${head},note`, 'port,300,0,1,', 'port,300,100,,rain']).warnings).toEqual([
      {
        row: 3,
        column: 'note',
        text: 'the note "rain" has no reading to stand beside and is not kept',
      },
    ]);
  });

  it.each([
    [
      'a reading that is none',
      'port,300,100,o.8',
      'gap_mm | o.8 | a length, millimetres such as 2.4',
    ],
    [
      'a bare fraction of mm',
      'port,300,100,3/32',
      'gap_mm | 3/32 | millimetres as a decimal, such as 2.4, or the fraction with its unit, such as 3/32 in',
    ],
    [
      'a reading in powers of ten',
      'port,300,100,1e9',
      'gap_mm | 1e9 | a length written out, of nine figures at most before its decimals',
    ],
    [
      'a reading of ten figures',
      'port,300,100,1000000000',
      'gap_mm | 1000000000 | a length written out, of nine figures at most before its decimals',
    ],
    [
      'an offset that no hull has',
      'port,10001,100,1',
      'offset_mm | 10001 | an offset within 10 m of the keel',
    ],
    ['an unknown side', 'prt,300,100,1', 'side | prt | port, starboard or centre'],
    ['no side', ',300,100,1', 'side |  | port, starboard or centre'],
    [
      'no offset',
      'port,,100,1',
      "offset_mm |  | the line's offset from the keel, measured along the bottom",
    ],
    [
      'a negative offset',
      'port,-300,100,1',
      'offset_mm | -300 | 0 or more, and the side in its own column',
    ],
    ['no station', 'port,300,,1', 'station_mm |  | the station of this reading'],
    [
      'a negative station',
      'port,300,-5,1',
      'station_mm | -5 | 0 or more: stations count forward from the transom',
    ],
    ['a cell too many', 'port,300,100,0,5', 'column 5 | 5 | 4 cells, as the header has'],
    ['a gap too large', 'port,300,100,30.1', 'gap_mm | 30.1 | at most 30 mm'],
    [
      'a gap below 0',
      'port,300,100,-1.1',
      'gap_mm | -1.1 | 0 or more, within two divisions of the gauge: an edge does not sink in',
    ],
    [
      'a station again',
      'port,300,0,2',
      'station_mm | 0 | each station once in line P300, placement 1 (row 2 has 1 there), or a look number for a second look',
    ],
  ])('refuses %s by row and column, and keeps the good rows', (_, row, expected) => {
    const lines = [head, 'port,300,0,1', row, 'port,300,200,2', 'port,300,300,2'];
    expect(faults(lines)).toEqual([`3 | ${expected}`]);
    const result = read(lines);
    const kept = result.ok ? [] : (result.partial.lines[0]?.placements[0]?.readings ?? []);
    expect(kept.map(({ station }) => station.mm)).toEqual([0, 200, 300]);
  });

  it.each([
    [
      'void,later',
      'port,300,100,1,strake,',
      'gap_mm | 1 | no gap where the station is void (strake), or no void',
    ],
    [
      'void,later',
      'port,300,100,1,,stand',
      'later | stand | nothing where the station is read or void',
    ],
    ['look', 'port,300,100,1,0', 'look | 0 | a whole number from 1'],
    ['repeat', 'port,300,100,1,1.5', 'repeat | 1.5 | a whole number from 1'],
    ['held', 'port,300,100,1,hanging', 'held | hanging | resting or blocks or on blocks'],
    ['read_to_mm', 'port,300,100,1,0', 'read_to_mm | 0 | more than 0, or nothing'],
    [
      'blocks_at',
      'port,300,100,1,100',
      'blocks_at | 100 | two stations with their unit, such as 100 mm and 1400 mm',
    ],
    ['gap_typed', 'port,300,100,1,2', 'gap_typed | 2 | what the number beside it says, 1'],
  ])('refuses a wrong cell under %s', (columns, row, expected) => {
    expect(faults([`${head},${columns}`, 'port,300,0,1', row])).toEqual([`3 | ${expected}`]);
  });

  it('lets a typed text that a spreadsheet has made a date of give way to its number', () => {
    const lines = ['side,offset_mm,station_mm,gap_in,gap_typed', 'port,300,0,0.03125,Jan-32'];
    expect(placement(lines).readings[0]?.gap).toEqual({ mm: 0.79375, text: '0.03125' });
  });

  it('refuses rows that contradict what an earlier row says of their line or placement', () => {
    expect(
      faults([
        `${head},line,held,aft_end_mm`,
        'port,300,0,1,inboard,resting,0',
        'starboard,300,100,1,inboard,,',
        'port,310,100,1,inboard,,',
        'port,300,200,1,inboard,blocks,',
        'port,300,300,1,inboard,,50',
        'port,300,400,1,inboard,,',
      ]),
    ).toEqual([
      '3 | side | starboard | port, as on row 2 for line inboard',
      '4 | offset | 310 | the same offset as on row 2 for line inboard',
      '5 | held | blocks | resting, as an earlier row says of line inboard, placement 1',
      '6 | aft_end | 50 | 0, as an earlier row says of line inboard, placement 1',
    ]);
  });

  it('says once that all readings of a lay stand at one station', () => {
    const lines = [head, 'port,300,300,1', 'port,300,300,1.1', 'port,300,300,1.2', 's,300,0,1'];
    expect(faults(lines)).toEqual([
      '2 | station_mm | 300 | stations that differ: all 3 readings of line P300, placement 1 stand at one',
    ]);
  });

  it('counts in a fault the rows that it refuses where it stands at the first of several', () => {
    const counted = (lines: readonly string[]) => {
      const result = read(lines);
      return result.ok ? [] : result.faults.map(({ row, rows }) => ({ row, rows }));
    };
    const atOne = ['port,300,300,1', 'port,300,300,1.1', 'port,300,300,1.2', 'bow,300,0,1'];
    expect(counted([head, ...atOne])).toEqual([{ row: 2, rows: 3 }, { row: 5 }]);
    const overKeel = ['port,300,900,0,athwart,yes', 's,300,900,1,athwart,yes'];
    expect(counted([`${head},direction,over_keel`, ...overKeel])).toEqual([{ row: 2, rows: 2 }]);
  });

  it('says of each row that comes again where the straightedge lies across: one station is as it should be', () => {
    const again = 'port,450,900,1,athwart';
    const rows = ['port,300,900,0,athwart', again, again, again];
    expect(faults(['side,offset_mm,station_mm,gap_mm,direction', ...rows])).toEqual([
      '4 | station_mm | 900 | each station once in line P450, placement 1 (row 3 has 1 there), or a look number for a second look',
      '5 | station_mm | 900 | each station once in line P450, placement 1 (row 3 has 1 there), or a look number for a second look',
    ]);
  });

  it('refuses a column that stands twice', () => {
    expect(faults([`${head},Gap (mm)`, 'port,300,0,1,2'])[0]).toBe(
      '1 | Gap (mm) | Gap (mm) | each column once',
    );
  });
});

describe('how the edge is held', () => {
  it('allows a resting edge two divisions below 0, and no more', () => {
    const rows = [head, 'port,300,0,-0.2', 'port,300,100,1'];
    expect(placement(['# read to: 0.1 mm', ...rows]).readings[0]?.gap.mm).toBe(-0.2);
    expect(faults(['# read to: 0.1 mm', head, 'port,300,0,-0.3'])).toHaveLength(1);
  });

  it('takes the block height off before it judges a gap, and refuses a negative one as it stands', () => {
    const blocks = ['# held: blocks', '# block: 20 mm', '# read to: 0.5 mm', head];
    expect(placement([...blocks, 'port,300,0,49.9']).block).toBe(20);
    expect(faults([...blocks, 'port,300,0,50.1', 'port,300,100,-0.1'])).toEqual([
      '5 | gap_mm | 50.1 | at most 30 mm past the block height of 20 mm',
      '6 | gap_mm | -0.1 | 0 or more: on blocks the edge stands clear of the hull',
    ]);
  });

  it('needs the height of the blocks, and none where the edge rests', () => {
    expect(faults(['# held: blocks', head, 'port,300,0,20'])).toEqual([
      '3 | block |  | the height of the blocks (line P300, placement 1)',
    ]);
    expect(faults([`${head},held,block_mm`, 'port,300,0,1,resting,20'])).toEqual([
      '2 | block | 20 mm | no block height where the edge rests (line P300, placement 1)',
    ]);
  });

  it('refuses a gap larger than a short edge could show', () => {
    expect(faults(['# edge length: 400 mm', head, 'port,300,0,21', 'port,300,100,20'])).toEqual([
      '3 | gap_mm | 21 | at most 20 mm: more than a straightedge 400 mm long could show',
    ]);
  });

  it('refuses a station that no aft running surface reaches', () => {
    expect(faults([head, 'port,300,0,0', 'port,300,1500000,1'])).toEqual([
      '3 | station_mm | 1500000 | a station within 30 m of the transom',
    ]);
  });

  it('refuses a limit, a division or a tolerance that was mistyped', () => {
    for (const [line, expected] of [
      ['# limit: 1500 m', 'a length between 1 mm and 100 m'],
      ['# read to: 0.000001 mm', 'a gap between 0.01 mm and 100 mm'],
      ['# tolerance: 1.5 m over 1500 mm', 'a gap between 0.01 mm and 100 mm'],
    ]) {
      expect(faults([line, head, 'port,300,0,0'])[0]).toContain(expected);
    }
  });

  it('takes a laying for one on blocks where a block height stands', () => {
    const lines = ['# block: 20 mm', head, 'port,300,0,20', 'port,300,200,21'];
    expect(read(lines).recognised.assumed).toEqual(['held on blocks, since a block height stands']);
  });

  it('warns of a station that the edge does not reach', () => {
    const lines = [
      '# edge length: 1200 mm',
      '# aft end: -100 mm',
      head,
      'port,300,0,0',
      'port,300,1150,1',
    ];
    expect(read(lines).warnings).toEqual([
      {
        row: 5,
        column: 'station_mm',
        text: 'line P300, placement 1: station 1150 lies beyond the straightedge, which reaches from -100 to 1100 mm',
      },
    ]);
  });

  it('takes what the file does not say from the defaults, and the file before them', () => {
    const defaults = { division: 0.5, edgeLength: 1500, held: 'resting' } as const;
    const lines = ['# read to: 0.1 mm', head, 'port,300,0,1'];
    expect(placement(lines, { defaults })).toMatchObject({ division: 0.1, edgeLength: 1500 });
    expect(read(lines, { defaults }).recognised.assumed).toEqual([]);
  });
});

describe('wide form', () => {
  it('takes a column a line, blanks as absent, 0 as contact and "x" as void', () => {
    const result = survey([
      '# gap unit: mm',
      'station_mm,P450mm,S 300 mm,c0mm',
      '0,0,1.5,',
      '100,x through-hull,,0.5',
      '200,X,2,1',
    ]);
    expect(result.lines.map(({ name, side, offset }) => [name, side, offset])).toEqual([
      ['P450', 'port', 450],
      ['S 300', 'starboard', 300],
      ['c0', 'centre', 0],
    ]);
    const [port, starboard] = result.lines.map(({ placements }) => placements[0]);
    expect(port?.readings.map(({ gap }) => gap.mm)).toEqual([0]);
    expect(port?.voids.map(({ station, reason }) => [station.mm, reason])).toEqual([
      [100, 'through-hull'],
      [200, 'not stated'],
    ]);
    expect(
      starboard?.readings.map(({ station, gap, source }) => [station.mm, gap.mm, source]),
    ).toEqual([
      [0, 1.5, 'row 3 S 300 mm'],
      [200, 2, 'row 5 S 300 mm'],
    ]);
  });

  it('refuses a line farther from the keel than any hull is wide, by its head', () => {
    const lines = ['# gap unit: mm', 'station_mm,P450mm,S10001mm', '0,0,0', '100,1,1'];
    expect(faults(lines)).toEqual(['2 | S10001mm | S10001mm | an offset within 10 m of the keel']);
  });

  it('names row and line of a faulty cell, and keeps the row for the other lines', () => {
    const lines = [
      '# gap unit: mm',
      'station_mm,P450mm,S450mm',
      '0,0,0',
      '100,o.8,1',
      ',1,1',
      '100,2,3',
    ];
    expect(faults(lines)).toEqual([
      '4 | P450mm | o.8 | a length, millimetres such as 2.4',
      '5 | station_mm |  | the station of this row',
      '6 | station_mm | 100 | each station once in line S450, placement 1 (row 4 has 1 there), or a look number for a second look',
    ]);
  });

  it('asks for the unit of the gaps, and for that of the lines', () => {
    expect(read(['station_mm,P450mm', '0,1'])).toMatchObject({
      ok: false,
      needs: [{ column: 'gap' }],
    });
    expect(read(['# gap unit: mm', 'station_mm,P450', '0,1'])).toMatchObject({
      ok: false,
      needs: [{ column: 'offset' }],
      faults: [{ row: 2, column: 'offset', found: 'station_mm P450' }],
    });
    const given = survey(['# gap unit: mm', '# offset unit: mm', 'station_mm,P450', '0,1']);
    expect(given.lines[0]).toMatchObject({ name: 'P450', offset: 450 });
  });

  it('refuses the same line twice', () => {
    expect(faults(['# gap unit: mm', 'station_mm,P450mm,P450mm', '0,1,2'])[0]).toBe(
      '2 | P450mm | P450mm | each column once',
    );
  });
});

describe('# lines', () => {
  const rows = [head, 'port,300,0,1'];

  it('state the conditions of a survey', () => {
    const result = survey([
      '# Hull: Grey Teal (invented)',
      '# date: 2026-05-02',
      '# tolerance: 1/16 in over 60 in',
      '# tolerance set by: the owner',
      '# limit: 1.5 m',
      '# repeatability: 0,15 mm',
      '# transom_radius: 10 mm',
      '# support: keel blocks and stands',
      '# support since: 2026-05-01T08:00Z',
      '# support engine: hung',
      '# support checked by: the yard',
      '# support: trailer, long bunks',
      '# engine: held by a hoist',
      '# surface: bare: scraped',
      '# note: first',
      '# note: second',
      '# __proto__: kept',
      '# written at dusk',
      '# blank:',
      ...rows,
    ]);
    expect(result).toMatchObject({
      hull: 'Grey Teal (invented)',
      date: '2026-05-02',
      tolerance: { gap: 1.5875, over: 1524, setBy: 'the owner', houseDefault: false },
      limit: 1500,
      repeatability: 0.15,
      transomRadius: 10,
      support: [
        {
          what: 'keel blocks and stands',
          at: '2026-05-01T08:00Z',
          engine: 'hung',
          checkedBy: 'the yard',
        },
        { what: 'trailer, long bunks' },
      ],
    });
    expect(Object.entries(result.conditions)).toEqual([
      ['engine', 'held by a hoist'],
      ['surface', 'bare: scraped'],
      ['note', 'first\nsecond'],
      ['__proto__', 'kept'],
      ['remark', 'written at dusk'],
    ]);
  });

  it('are shown with what was made of them', () => {
    expect(read(['# read to: 0.5 mm', '# weather: rain', ...rows]).recognised.conditions).toEqual([
      { row: 1, key: 'read to', value: '0.5 mm', used: true },
      { row: 2, key: 'weather', value: 'rain', used: false },
    ]);
  });

  it.each([
    ['read to: fine', 'read to | fine | a length with its unit, such as 2.4 mm or 3/32 in'],
    ['block: 20', 'block | 20 | a length with its unit, such as 20 mm'],
    ['block: 0 mm', 'block | 0 mm | more than 0, such as 20 mm'],
    ['held: hanging', 'held | hanging | resting or blocks or on blocks'],
    [
      'blocks at: 100 mm',
      'blocks at | 100 mm | two stations with their unit, such as 100 mm and 1400 mm',
    ],
    [
      'tolerance: 1.5 mm',
      'tolerance | 1.5 mm | a gap over a length with their units, such as 1.5 mm over 1500 mm',
    ],
    ['gap unit: furlong', 'gap unit | furlong | a unit such as mm, in or 1/32 in'],
    ['repeatability: -1 mm', 'repeatability | -1 mm | 0 or more, such as 0.2 mm'],
    ['kind: laser', 'kind | laser | hand or log'],
    ['support engine: hung', 'support engine | hung | a "support:" line before it'],
  ])('that cannot be read are faults: # %s', (line, expected) => {
    expect(faults([`# ${line}`, ...rows])).toEqual([`1 | ${expected}`]);
  });

  it('that contradict each other are faults', () => {
    expect(faults(['# hull: Teal', '# hull: Tern', ...rows])).toEqual([
      '2 | hull | Tern | one hull: row 1 says Teal',
    ]);
  });
});

describe('a log', () => {
  it('is averaged where stations repeat, with its weight, and not refused', () => {
    const { readings } = placement([
      '# kind: log',
      `${head},weight`,
      'port,300,0,1,',
      'port,300,100,2,',
      'port,300,0,1.5,',
      'port,300,0,2,2',
    ]);
    expect(readings).toEqual([
      {
        station: { mm: 0, text: '0' },
        gap: { mm: 1.625, text: '1.625' },
        look: 1,
        weight: 4,
        source: 'row 3',
      },
      { station: { mm: 100, text: '100' }, gap: { mm: 2, text: '2' }, look: 1, source: 'row 4' },
    ]);
  });

  it('that stays at one station is refused all the same', () => {
    expect(faults(['# kind: log', head, 'port,300,5,1', 'port,300,5,2'])).toEqual([
      '3 | station_mm | 5 | stations that differ: all 2 readings of line P300, placement 1 stand at one',
    ]);
  });
});

describe('hostile files', () => {
  it('get an answer: a huge cell, a hundred thousand columns, names of built-in things', () => {
    const huge = faults([head, `port,300,0,${'9'.repeat(2_000_000)}`]);
    expect(huge[0]?.length).toBeLessThan(200);
    const wide = Array.from({ length: 100_000 }, (_, i) => `c${i}`).join(',');
    const many = Array.from({ length: 900 }, (_, i) => `c${i}`).join(',');
    expect(read([`${head},${many}`, 'port,300,0,1']).warnings[0]?.text).toMatch(/and 895 more$/);
    expect(faults([`${head},${wide}`, 'port,300,0,1'])).toEqual([
      '1 |  | 100004 columns | at most 1000 columns',
    ]);
    expect(faults([head, `port,300,0,1,${wide}`])).toEqual([
      '2 | column 5 | c0 | 4 cells, as the header has',
    ]);
    expect(faults([`__proto__,constructor,toString`, '1,2,3'])).toHaveLength(1);
    const named = survey([`${head},line`, 'port,300,0,1,__proto__', 'port,400,0,1,constructor']);
    expect(named.lines.map(({ name }) => name)).toEqual(['__proto__', 'constructor']);
    expect(readCsv('#'.repeat(100_000)).ok).toBe(false);
    expect(readCsv(','.repeat(100_000)).ok).toBe(false);
    expect(readCsv('"'.repeat(100_001)).ok).toBe(false);
  });

  it('are refused unread where no hand has written so much', () => {
    const log = 'a log of more says # kind: log above its header';
    expect(faults([head, ...Array.from({ length: 100_001 }, () => 'p,3,0,1')])).toEqual([
      `1 |  | 100001 rows | at most 100000 rows; ${log}`,
    ]);
    expect(faults(['x'.repeat(8_000_001)])).toEqual([
      `1 |  | 8000001 characters | at most 8000000 characters; ${log}`,
    ]);
  });
});
