import type { BookPart } from './bookParts.ts';
import { bookParts } from './bookParts.ts';
import type { BookLine, StrikeNote } from './bookView.ts';
import { countText } from './countText.ts';
import type { Paper } from './sheetChoices.ts';

export interface BookSheetFrom {
  readonly paper: Paper;
  readonly hull: string;
  readonly invented: boolean;
  readonly lines: readonly BookLine[];
  /** Lines of the whole book. */
  readonly total: number;
  /** What a survey is called. */
  readonly title: (survey: string) => string;
  /** What the filter leaves, in words; empty for the whole book. */
  readonly only: string;
  readonly loose: readonly { readonly id: string; readonly reason: string }[];
  /** Day of printing, as 2026-03-14. */
  readonly printed: string;
}

export interface BookSheetRow {
  readonly row: number;
  readonly words: string;
  readonly struck: readonly StrikeNote[];
}

export interface BookSheetView extends Pick<
  BookSheetFrom,
  'paper' | 'hull' | 'invented' | 'only' | 'loose' | 'printed'
> {
  readonly parts: readonly (BookPart & { readonly title: string })[];
  readonly count: string;
  /** What stands at the head of every page. */
  readonly head: string;
  readonly rowsOf: (line: BookLine) => readonly BookSheetRow[];
}

/** Rows of an entry that are printed whole; of longer ones only what was struck. The rest is in the entry file. */
const ROWS_PRINTED = 60;

/** The book as it goes to paper. */
export function bookSheetView(from: BookSheetFrom): BookSheetView {
  const { paper, hull, invented, only, loose, printed, lines, total, title } = from;
  const entries = `${countText(total)} ${total === 1 ? 'entry' : 'entries'}`;
  return {
    ...{ paper, hull, invented, only, loose, printed },
    parts: bookParts(lines).map((part) => ({ ...part, title: title(part.survey) })),
    count: only === '' ? `${entries}.` : `${countText(lines.length)} of ${entries}.`,
    head: `${hull}${invented ? ' (invented)' : ''} · field book, printed ${printed}${only === '' ? '' : ', in part'}`,
    rowsOf,
  };
}

function rowsOf(line: BookLine): readonly BookSheetRow[] {
  const { rowCount, struckRows } = line;
  if (rowCount <= ROWS_PRINTED) {
    return line
      .rows(0, rowCount)
      .map((words, row) => ({ row, words, struck: struckRows.get(row) ?? [] }));
  }
  return [...struckRows]
    .sort(([a], [b]) => a - b)
    .map(([row, struck]) => ({ row, words: line.rows(row, row + 1).join(''), struck }));
}
