import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { type Book, bookOf, entriesOf } from '../../src/book/book.ts';
import { canonical } from '../../src/book/canonical.ts';
import { previewUnion } from '../../src/book/previewUnion.ts';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { standing } from '../../src/book/standing.ts';
import { union } from '../../src/book/union.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { anyEntries, entryOf, idOf, striker } from './samples.ts';

/** Two people's files: what both had, and what each has stated since; ids may clash, and strikes cross. */
const diverged = fc
  .tuple(anyEntries, anyEntries, anyEntries)
  .map(([both, one, other]) => [
    writeEntryFile(bookOf([...both, ...one])),
    writeEntryFile(bookOf([...both, ...other])),
  ]);

const taken = (...files: readonly string[]): Book =>
  files.map((text) => readEntryFile(text).book).reduce(union, bookOf([]));

describe('two entry files that went apart', () => {
  it('are the same in one, to the last byte, whichever is taken first', () => {
    fc.assert(
      fc.property(diverged, ([one, other]) => {
        const book = taken(one, other);
        const turned = taken(other, one);
        expect(writeEntryFile(turned)).toBe(writeEntryFile(book));
        expect(standing(turned)).toEqual(standing(book));
      }),
      { seed: 61, numRuns: 100 },
    );
  });

  it('change nothing when they are taken again, in any order', () => {
    fc.assert(
      fc.property(diverged, ([one, other]) => {
        const once = writeEntryFile(taken(one, other));
        for (const files of [
          [one, other, one],
          [one, other, other, one],
          [other, other, one],
        ]) {
          expect(writeEntryFile(taken(...files))).toBe(once);
        }
        expect(writeEntryFile(taken(once, one))).toBe(once);
      }),
      { seed: 62, numRuns: 60 },
    );
  });

  it('lose no content of either', () => {
    fc.assert(
      fc.property(diverged, ([one, other]) => {
        const texts = new Set(entriesOf(taken(one, other)).map(canonical));
        for (const file of [one, other]) {
          for (const entry of entriesOf(readEntryFile(file).book)) {
            expect(texts).toContain(canonical(entry));
          }
        }
      }),
      { seed: 63, numRuns: 60 },
    );
  });

  it('bring, where one line is damaged, all the rest; that line is told by its place and kept as it came', () => {
    fc.assert(
      fc.property(diverged, fc.nat(), fc.nat(), ([one, other], which, where) => {
        const lines = other.trimEnd().split('\n');
        const entryLines = lines.length - 2;
        fc.pre(entryLines > 0);
        const row = 1 + (which % entryLines);
        const line = lines[row];
        const at = where % line.length;
        const damaged = `${line.slice(0, at)}${line[at] === '~' ? '!' : '~'}${line.slice(at + 1)}`;
        const read = readEntryFile(lines.with(row, damaged).join('\n'));

        expect(read.faults.map((fault) => fault.row)).toContain(row + 1);
        expect(read.unread).toEqual([{ row: row + 1, text: damaged }]);
        const rest = readEntryFile(lines.toSpliced(row, 1).join('\n')).book;
        const before = readEntryFile(one).book;
        expect(writeEntryFile(union(before, read.book))).toBe(writeEntryFile(union(before, rest)));
      }),
      { seed: 64, numRuns: 100 },
    );
  });

  it('tell a wrong sum of the whole file, and are read all the same', () => {
    fc.assert(
      fc.property(diverged, ([one]) => {
        const wrong = one.replace(/[0-9a-f]{64}\n$/, `${'0'.repeat(64)}\n`);
        const read = readEntryFile(wrong);
        const row = one.trimEnd().split('\n').length;
        expect(read.faults).toMatchObject([{ row, column: 'sha256', expected: '0'.repeat(64) }]);
        expect(writeEntryFile(read.book)).toBe(one);
      }),
      { seed: 65, numRuns: 50 },
    );
  });
});

describe('the preview of a union', () => {
  it('parts what is brought into new, same and disputed, each content once, and ends in the union', () => {
    fc.assert(
      fc.property(anyEntries, anyEntries, (a, b) => {
        const [here, brought] = [bookOf(a), bookOf(b)];
        const preview = previewUnion(here, brought);
        expect(preview.after).toEqual(union(here, brought));
        const parted = [
          ...preview.fresh,
          ...preview.same,
          ...preview.disputed.flatMap((each) => each.brought),
        ];
        expect(parted.map(canonical).sort()).toEqual(entriesOf(brought).map(canonical).sort());
        for (const { _id } of preview.fresh) {
          expect(here.entries.has(_id) || here.conflicts.has(_id)).toBe(false);
        }
      }),
      { seed: 66, numRuns: 100 },
    );
  });

  it('has nothing new and nothing disputed once it is taken', () => {
    fc.assert(
      fc.property(anyEntries, anyEntries, (a, b) => {
        const brought = bookOf(b);
        const { after } = previewUnion(bookOf(a), brought);
        const again = previewUnion(after, brought);
        expect([again.fresh, again.disputed]).toEqual([[], []]);
        expect(again.same).toHaveLength(entriesOf(brought).length);
      }),
      { seed: 67, numRuns: 60 },
    );
  });

  it('shows both contents of an id that says something else here', () => {
    const [mine, theirs] = [entryOf(1, { body: { gap: 4 } }), entryOf(1, { body: { gap: 9 } })];
    const preview = previewUnion(bookOf([mine]), bookOf([theirs, striker(2, 1)]));
    expect(preview.disputed).toEqual([{ id: idOf(1), here: [mine], brought: [theirs] }]);
    expect(preview.fresh.map(({ _id }) => _id)).toEqual([idOf(2)]);
  });

  it('shows two contents that come in one file, with nothing here', () => {
    const both = [entryOf(1, { body: 1 }), entryOf(1, { body: 2 })];
    const { disputed, fresh } = previewUnion(bookOf([]), bookOf(both));
    expect(disputed).toEqual([{ id: idOf(1), here: [], brought: both }]);
    expect(fresh).toEqual([]);
  });
});
