import type { FieldSheetAcross } from './fieldSheetAcross.ts';
import type { Paper } from './sheetChoices.ts';

/** What a page has room for under what stands at its head, and what a table takes, mm on paper. */
const ROOM: Readonly<Record<Paper, number>> = { A4: 205, Letter: 187 };
const HEAD = 27;
const ROW = 7.6;
/** A line of words in the first column, and how many letters it has. */
const WORDS = 5.3;
const LETTERS = 16;

/** Tables of a field sheet on as many pages as they take: none is parted that fits on a page of its own. */
export function acrossPages(
  tables: readonly FieldSheetAcross[],
  paper: Paper,
): readonly (readonly FieldSheetAcross[])[] {
  const pages: FieldSheetAcross[][] = [];
  let left = 0;
  for (const table of tables.flatMap((each) => parted(each, ROOM[paper]))) {
    const takes = heightOf(table);
    const page = pages.at(-1);
    if (page === undefined || takes > left) {
      pages.push([table]);
      left = ROOM[paper] - takes;
    } else {
      page.push(table);
      left -= takes;
    }
  }
  return pages;
}

/** A table that is higher than a page in as many as it takes. */
function parted(table: FieldSheetAcross, room: number): readonly FieldSheetAcross[] {
  const parts: FieldSheetAcross['rows'][number][][] = [[]];
  let left = room - HEAD;
  for (const row of table.rows) {
    const takes = rowHeight(row);
    if (takes > left && parts[parts.length - 1].length > 0) {
      parts.push([]);
      left = room - HEAD;
    }
    parts[parts.length - 1].push(row);
    left -= takes;
  }
  return parts.map((rows, i) => ({ ...table, key: `${table.key} ${i}`, rows }));
}

function heightOf({ rows }: FieldSheetAcross): number {
  return rows.reduce((sum, row) => sum + rowHeight(row), HEAD);
}

function rowHeight({ lies }: FieldSheetAcross['rows'][number]): number {
  return Math.max(ROW, WORDS * Math.ceil(lies.length / LETTERS) + 1);
}
