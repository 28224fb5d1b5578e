import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { crc32 } from 'node:zlib';

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { type Attachment, PART_LIMIT } from '../../src/book/attachment.ts';
import { bookOf, entriesOf } from '../../src/book/book.ts';
import { canonical } from '../../src/book/canonical.ts';
import type { Entry } from '../../src/book/entry.ts';
import { LINE_LIMIT } from '../../src/book/fileLine.ts';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { standing } from '../../src/book/standing.ts';
import { entryFileLines, writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { anyAttachments, anyBook, entryOf, idOf, striker } from './samples.ts';

const fixture = (name: string): string =>
  readFileSync(new URL(`../../fixtures/book/${name}`, import.meta.url), 'utf8');

/** A line with a right CRC-32, whatever it says. */
const vouched = (word: string, rest: string): string =>
  `${word} ${crc32(rest).toString(16).padStart(8, '0')} ${rest}`;

/** A file of these lines with a right last line, by another hand than the code's. */
function fileOf(...lines: readonly string[]): string {
  const text = ['aftrun entry file 1', ...lines].map((line) => `${line}\n`).join('');
  return `${text}end ${lines.length} ${createHash('sha256').update(text).digest('hex')}\n`;
}

const photo: Attachment = {
  entry: idOf(1),
  name: 'photo',
  type: 'image/jpeg',
  base64: Buffer.from('a photo, invented').toString('base64'),
};
/** Two and a bit parts' worth. */
const long: Attachment = {
  ...photo,
  name: 'long',
  base64: `${'AbC+'.repeat(250_000)}${'DeF/'.repeat(250_001)}`,
};

const small = bookOf([entryOf(1), entryOf(2), striker(3, 1), entryOf(4), entryOf(4, { body: 4 })]);

describe('the entry file of version 1', () => {
  const text = fixture('version-1.txt');
  const plain = JSON.parse(fixture('version-1.json')) as {
    entries: Entry[];
    attachments: Attachment[];
  };

  it('loads whole, saves to the same bytes, and loads the same again', () => {
    const read = readEntryFile(text);
    expect(read.faults).toEqual([]);
    expect(read.unread).toEqual([]);
    expect(entriesOf(read.book)).toEqual(plain.entries);
    expect(read.attachments).toEqual(plain.attachments);
    const saved = writeEntryFile(read.book, read.attachments);
    expect(saved).toBe(text);
    expect(readEntryFile(saved)).toEqual(read);
  });

  it('says the same of what stands as the day it was saved', () => {
    const { book } = readEntryFile(text);
    const result = standing(book);
    expect(result.struck.map(({ entry }) => entry.kind)).toEqual(['reading']);
    expect(result.setAside.map(({ reason }) => reason)).toEqual(['two contents', 'cycle', 'cycle']);
    expect([...result.struckRows.values()]).toEqual([[0, 2]]);
    expect(result.standing.map((entry) => entry.kind)).toContain('a kind of tomorrow');
  });

  it('carries checksums that zlib and OpenSSL confirm', () => {
    const lines = text.trimEnd().split('\n');
    for (const line of lines.slice(1, -1)) {
      const [word, sum, ...rest] = line.split(' ');
      expect(line).toBe(vouched(word, rest.join(' ')));
      expect(sum).toMatch(/^[0-9a-f]{8}$/);
    }
    expect(text).toBe(fileOf(...lines.slice(1, -1)));
  });
});

describe('writeEntryFile and readEntryFile', () => {
  it('give back any book and its attachments, unknown kinds and fields and conflicts included', () => {
    fc.assert(
      fc.property(anyBook, anyAttachments, (book, attachments) => {
        const text = writeEntryFile(book, attachments);
        const read = readEntryFile(text);
        expect([read.faults, read.unread]).toEqual([[], []]);
        expect(read.book).toEqual(book);
        expect(read.attachments).toHaveLength(attachments.length);
        expect(read.attachments).toEqual(expect.arrayContaining([...attachments]));
        expect(writeEntryFile(read.book, read.attachments)).toBe(text);
      }),
      { seed: 71, numRuns: 200 },
    );
  });

  it('write the same bytes in whatever order entries and attachments came', () => {
    const entries = entriesOf(small);
    const other = { ...photo, name: 'another' };
    expect(writeEntryFile(bookOf(entries.toReversed()), [other, photo])).toBe(
      writeEntryFile(small, [photo, other]),
    );
  });

  it('split an attachment into lines of at most 1 MB of base64 and join it again', () => {
    const lines = [...entryFileLines(small, [long])].filter((line) =>
      line.startsWith('attachment '),
    );
    expect(lines).toHaveLength(3);
    for (const line of lines) {
      expect(line.slice(line.lastIndexOf(' ')).trim().length).toBeLessThanOrEqual(PART_LIMIT);
    }
    expect(readEntryFile(writeEntryFile(small, [long])).attachments).toEqual([long]);
  });

  it('read an attachment whose parts stand in another order', () => {
    const [head, ...rest] = [...entryFileLines(bookOf([]), [long])].map((line) => line.trim());
    expect(head).toBe('aftrun entry file 1');
    const read = readEntryFile(fileOf(...rest.slice(0, -1).reverse()));
    expect(read.faults).toEqual([]);
    expect(read.attachments).toEqual([long]);
  });

  it('take the empty book', () => {
    expect(readEntryFile(writeEntryFile(bookOf([])))).toMatchObject({ faults: [], unread: [] });
  });

  it('take a byte order mark, CRLF line ends and a missing last line end for no fault', () => {
    const text = writeEntryFile(small, [photo]);
    const whole = readEntryFile(text);
    expect(readEntryFile(`\ufeff${text.replaceAll('\n', '\r\n')}`)).toEqual(whole);
    expect(readEntryFile(text.trimEnd())).toEqual(whole);
  });

  it.each<[string, readonly Attachment[]]>([
    ['of no entry', [{ ...photo, entry: 'x' }]],
    ['without a name', [{ ...photo, name: '' }]],
    ['with a name that belongs to a database', [{ ...photo, name: '_photo' }]],
    ['without a media type', [{ ...photo, type: '' }]],
    ['that is not base64', [{ ...photo, base64: 'a-b_' }]],
    ['whose base64 is cut short', [{ ...photo, base64: 'abc' }]],
    ['that comes twice', [photo, { ...photo, base64: '' }]],
  ])('refuse to write an attachment %s', (_, attachments) => {
    expect(() => writeEntryFile(small, attachments)).toThrow(RangeError);
  });
});

describe('a damaged entry file', () => {
  const text = writeEntryFile(small, [photo]);
  const lines = text.trimEnd().split('\n');
  const whole = readEntryFile(text);

  it('is reported at the line where a character changed, wherever that is, and the rest is read', () => {
    fc.assert(
      fc.property(
        fc.nat(lines.length - 1),
        fc.nat(10_000),
        fc.constantFrom('x', '0', ' ', '"', 'é'),
        (index, at, letter) => {
          const line = lines[index];
          const place = at % line.length;
          fc.pre(line[place] !== letter);
          const changed = line.slice(0, place) + letter + line.slice(place + 1);
          const read = readEntryFile(lines.with(index, changed).join('\n'));
          expect(read.faults.map(({ row }) => row)).toContain(index + 1);
          const damaged = index > 0 && index < lines.length - 1;
          expect(read.unread.filter(({ row }) => row !== lines.length)).toEqual(
            damaged ? [{ row: index + 1, text: changed }] : [],
          );
          const kept = [...entriesOf(read.book), ...read.attachments];
          const all = [...entriesOf(whole.book), ...whole.attachments];
          expect(kept).toHaveLength(damaged ? all.length - 1 : all.length);
          for (const entry of kept) expect(all).toContainEqual(entry);
        },
      ),
      { seed: 81, numRuns: 500 },
    );
  });

  it('is reported when any one line is gone', () => {
    lines.forEach((_, index) => {
      const read = readEntryFile(lines.toSpliced(index, 1).join('\n'));
      const columns = read.faults.map(({ column }) => column);
      if (index === 0) expect([columns, read.book]).toEqual([['version', 'sha256'], whole.book]);
      else if (index === lines.length - 1) expect(columns).toEqual(['end']);
      else expect(columns).toEqual(['count', 'sha256']);
    });
  });

  it('is reported when it was cut off anywhere, and what was whole is read', () => {
    fc.assert(
      fc.property(fc.nat(text.length - 2), (length) => {
        const read = readEntryFile(text.slice(0, length));
        expect(read.faults.length).toBeGreaterThan(0);
        const cut = text.slice(0, length).split('\n').length - 1;
        const kept = [...entriesOf(read.book), ...read.attachments];
        expect(kept.length).toBeGreaterThanOrEqual(Math.max(0, cut - 1));
      }),
      { seed: 82, numRuns: 300 },
    );
  });

  it('says what stood on the line and what was expected there', () => {
    const changed = lines[1].replace('Yard hand', 'Yard band');
    const { faults } = readEntryFile(lines.with(1, changed).join('\n'));
    const stated = changed.slice(6, 14);
    const sum = crc32(changed.slice(15)).toString(16).padStart(8, '0');
    expect(faults[0]).toEqual({
      row: 2,
      column: 'crc',
      found: `a line whose CRC-32 is ${sum}`,
      expected: stated,
    });
  });

  it('names the missing last line one past the end', () => {
    expect(readEntryFile(lines.slice(0, -1).join('\n')).faults).toEqual([
      {
        row: lines.length,
        column: 'end',
        found: 'the end of the file',
        expected: 'a last line with count and SHA-256',
      },
    ]);
  });

  it('reports a wrong count, and a wrong SHA-256', () => {
    const last = lines[lines.length - 1];
    const count = readEntryFile(lines.with(-1, last.replace(/^end \d+/, 'end 99')).join('\n'));
    expect(count.faults).toEqual([
      { row: lines.length, column: 'count', found: '6 lines', expected: '99 lines' },
    ]);
    const wrong = '0'.repeat(64);
    const sum = readEntryFile(lines.with(-1, `end 6 ${wrong}`).join('\n'));
    expect(sum.faults).toMatchObject([{ row: lines.length, column: 'sha256', expected: wrong }]);
    expect(readEntryFile(lines.with(-1, 'end six').join('\n')).faults).toMatchObject([
      { row: lines.length, column: 'end', found: 'end six' },
    ]);
  });

  it('reports lines that changed places, which each vouch for themselves', () => {
    const swapped = lines.with(1, lines[2]).with(2, lines[1]);
    const read = readEntryFile(swapped.join('\n'));
    expect(read.faults).toMatchObject([{ column: 'sha256' }]);
    expect(read.book).toEqual(whole.book);
  });

  it('reports a version that it does not know, and reads what it can', () => {
    const read = readEntryFile(text.replace('file 1', 'file 2'));
    expect(read.faults[0]).toEqual({
      row: 1,
      column: 'version',
      found: 'aftrun entry file 2',
      expected: 'aftrun entry file 1',
    });
    expect(read.book).toEqual(whole.book);
  });

  it('reports an entry, a part or a whole file that comes twice, and keeps it once', () => {
    const entry = readEntryFile(fileOf(lines[1], lines[2], lines[1]));
    expect(entry.faults).toEqual([
      { row: 4, column: 'entry', found: 'the entry of line 2 again', expected: 'each entry once' },
    ]);
    expect(entry.book.entries.size).toBe(2);
    const part = readEntryFile(fileOf(lines[6], lines[6]));
    expect(part.faults).toMatchObject([{ row: 3, found: 'the part of line 2 again' }]);
    expect(part.attachments).toEqual([photo]);
    const twice = readEntryFile(text + text);
    expect(twice.faults.every(({ row }) => row > lines.length)).toBe(true);
    expect(twice.faults.length).toBeGreaterThan(0);
    expect([twice.book, twice.attachments]).toEqual([whole.book, whole.attachments]);
  });

  it('does not make up an attachment that lacks a part, and hands its lines back', () => {
    const parts = [...entryFileLines(bookOf([]), [long])].map((line) => line.trim()).slice(1, -1);
    const read = readEntryFile(fileOf(parts[0], parts[2]));
    expect(read.attachments).toEqual([]);
    expect(read.faults).toEqual([
      {
        row: 2,
        column: 'attachment',
        found: '2 of 3 parts of "long"',
        expected: 'every part',
      },
    ]);
    expect(read.unread).toEqual([
      { row: 2, text: parts[0] },
      { row: 3, text: parts[2] },
    ]);
  });

  it('keeps the first of two attachments with one name, and hands the other back', () => {
    const other = { ...photo, base64: 'AAAA' };
    const [a, b] = [photo, other].map((one) => [...entryFileLines(bookOf([]), [one])][1].trim());
    const read = readEntryFile(fileOf(a, b));
    expect(read.attachments).toEqual([photo]);
    expect(read.faults).toMatchObject([{ row: 3, column: 'attachment' }]);
    expect(read.unread).toEqual([{ row: 3, text: b }]);
  });

  it('joins no parts that say different things of their attachment', () => {
    const [, ...parts] = [...entryFileLines(bookOf([]), [long])].map((line) => line.trim());
    const [, , ...others] = [...entryFileLines(bookOf([]), [{ ...long, type: 'image/png' }])];
    const read = readEntryFile(fileOf(parts[0], others[0].trim(), parts[1], parts[2]));
    expect(read.faults).toMatchObject([{ row: 3, column: 'attachment' }]);
    expect(read.attachments).toEqual([long]);
  });
});

describe('a hostile entry file', () => {
  const right = canonical(entryOf(1));

  it.each<[string, string, string]>([
    ['an empty line', '', 'line'],
    ['a word of tomorrow', vouched('parcel', '{}'), 'line'],
    ['a line that is no JSON', vouched('entry', '{"_id":'), 'entry'],
    ['an envelope out of form', vouched('entry', '{"_id":"x"}'), 'entry'],
    ['a prototype key', vouched('entry', `{"__proto__":{"a":1},${right.slice(1)}`), 'entry'],
    ['nesting without end', vouched('entry', '['.repeat(100_000) + ']'.repeat(100_000)), 'entry'],
    ['unsorted members', vouched('entry', JSON.stringify(entryOf(1))), 'entry'],
    [
      'a member that comes twice',
      vouched('entry', right.replace('"by":', '"by":"Other","by":')),
      'entry',
    ],
    [
      'a digit that no number here holds',
      vouched('entry', right.replace('"gap":1', '"gap":12345678901234567891')),
      'entry',
    ],
    [
      'unsorted members of a part',
      vouched(
        'attachment',
        `{"name":"n","entry":"${idOf(1)}","part":1,"parts":1,"type":"image/png"} AAAA`,
      ),
      'attachment',
    ],
    ['a line without end', `entry 00000000 ${'x'.repeat(LINE_LIMIT)}`, 'line'],
    ['an attachment without base64', vouched('attachment', '{}'), 'attachment'],
    ['an attachment of nothing', vouched('attachment', '{} AAAA'), 'attachment'],
    ['a part past the last', part({ part: 2 }), 'attachment'],
    ['parts without number', part({ parts: 1e9 }), 'attachment'],
    ['a field of tomorrow in a part', part({ later: 1 }), 'attachment'],
    ['padding inside an attachment', part({ parts: 2 }, 'AA=='), 'attachment'],
    ['a part above 1 MB', part({}, 'AAAA'.repeat(250_001)), 'attachment'],
  ])('gets %s reported at its line, and the other lines are read', (_, line, column) => {
    const read = readEntryFile(fileOf(vouched('entry', right), line, vouched('entry', next)));
    expect(read.faults).toMatchObject([{ row: 3, column }]);
    expect(read.unread).toEqual([{ row: 3, text: line }]);
    expect([...read.book.entries.keys()]).toEqual([idOf(1), idOf(2)]);
    for (const { found, expected } of read.faults) {
      expect(found.length + expected.length).toBeLessThan(300);
    }
  });

  it('is never thrown at', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (noise) => {
        expect(readEntryFile(noise).faults.length).toBeGreaterThan(0);
        expect(readEntryFile(fileOf(noise.replaceAll('\n', ' '))).faults).toMatchObject([
          { row: 2 },
        ]);
      }),
      { seed: 91, numRuns: 500 },
    );
  });

  const next = canonical(entryOf(2));
  function part(more: Record<string, unknown>, base64 = 'AAAA'): string {
    const header = { entry: idOf(1), name: 'n', part: 1, parts: 1, type: 'image/png', ...more };
    return vouched('attachment', `${canonical(header)} ${base64}`);
  }
});
