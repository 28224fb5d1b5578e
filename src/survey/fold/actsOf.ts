import { EXTRA_COLUMN, IMPORT_COLUMNS, LINE_COLUMN } from '../kinds/import.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import { readBody } from '../kinds/readBody.ts';
import type { ReadEntries, Stated } from './readStanding.ts';
import type { Unused } from './report.ts';

/** What was done at one station of a placement, whether typed or a row of an import. */
export type Act = {
  readonly placement: string;
  /** Id of the entry, or `<id>#<row>`. */
  readonly source: string;
} & (
  | { readonly act: 'reading'; readonly body: BodyOf<'reading'> }
  | { readonly act: 'void'; readonly body: BodyOf<'void'> }
  | { readonly act: 'later'; readonly body: BodyOf<'later'> }
);

/** Struck rows by the id of the import, as src/book gives them. */
export type StruckRows = ReadonlyMap<string, readonly number[]>;

/** Every reading, void and station put off among entries: typed ones and the rows of imports that are not struck, in
 *  the order of entry ids and rows. A row that cannot be read is set aside by its own name. */
export function actsOf(
  read: ReadEntries,
  struckRows: StruckRows,
): { readonly acts: readonly Act[]; readonly setAside: readonly Unused[] } {
  const setAside: Unused[] = [];
  const acts: { readonly id: string; readonly act: Act }[] = [];
  for (const { id, body } of read.of('reading')) {
    acts.push({ id, act: { act: 'reading', placement: body.placement, source: id, body } });
  }
  for (const { id, body } of read.of('void')) {
    acts.push({ id, act: { act: 'void', placement: body.placement, source: id, body } });
  }
  for (const { id, body } of read.of('later')) {
    acts.push({ id, act: { act: 'later', placement: body.placement, source: id, body } });
  }
  for (const stated of read.of('import')) {
    const rows = rowsOf(stated, new Set(struckRows.get(stated.id)));
    for (const act of rows.acts) acts.push({ id: stated.id, act });
    setAside.push(...rows.setAside);
  }
  // A stable sort: the rows of one import keep their order.
  acts.sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  return { acts: acts.map(({ act }) => act), setAside };
}

type Cell = string | number | null | undefined;

/** Rows of imports never change either, and are the bulk of a book. */
const known = new WeakMap<object, readonly (Act | Unused)[]>();

function rowsOf(
  { id, body }: Stated<'import'>,
  struck: ReadonlySet<number>,
): { readonly acts: readonly Act[]; readonly setAside: readonly Unused[] } {
  let all = known.get(body);
  if (all === undefined) {
    const places = IMPORT_COLUMNS.map((column) => body.columns.indexOf(column));
    const lineAt = body.columns.indexOf(LINE_COLUMN);
    const extras = body.columns.flatMap((column, at) =>
      column.startsWith(EXTRA_COLUMN) ? [{ heading: column.slice(EXTRA_COLUMN.length), at }] : [],
    );
    all = body.rows.map((cells, row) => {
      const extra = extras.flatMap(({ heading, at }) =>
        isSaid(cells[at]) ? [[heading, cells[at]] as const] : [],
      );
      const line = lineAt < 0 ? undefined : cells[lineAt];
      return actOf(
        `${id}#${row}`,
        body.placements,
        places.map((at) => cells[at]),
        {
          ...(typeof line === 'number' && {
            line: body.lines?.[line] ?? 'a line that is not listed',
          }),
          ...(extra.length > 0 && { extra: Object.fromEntries(extra) }),
        },
      );
    });
    known.set(body, all);
  }
  const standing = all.filter((_, row) => !struck.has(row));
  return {
    acts: standing.filter((item): item is Act => 'act' in item),
    setAside: standing.filter((item): item is Unused => 'reason' in item),
  };
}

function actOf(
  source: string,
  placements: readonly string[],
  cells: readonly Cell[],
  more: object,
): Act | Unused {
  const [act, place, station, stationText, gap, gapText] = cells;
  const [look, division, reads, weight, reason, note] = cells.slice(6);
  const refused = (why: string): Unused => ({ id: source, kind: 'import', reason: why });
  const placement = typeof place === 'number' ? placements[place] : undefined;
  if (placement === undefined) return refused('placement: expected one that the import lists');
  const at = { placement, station: { mm: station, text: stationText } };
  if (act === 'reading') {
    const read = readBody('reading', {
      ...at,
      gap: { mm: gap, text: gapText },
      ...stated('look', look),
      ...(isSaid(division) && { division: { mm: division, text: `${division} mm` } }),
      ...stated('reads', reads),
      ...stated('weight', weight),
      ...stated('note', note),
      ...more,
    });
    return read.ok ? { act, placement, source, body: read.body } : refused(read.reason);
  }
  if (act === 'void' || act === 'later') {
    const read = readBody(act, {
      ...at,
      ...stated('reason', reason),
      ...stated('note', note),
      ...more,
    });
    return read.ok ? { act, placement, source, body: read.body } : refused(read.reason);
  }
  return refused('act: expected reading, void or later');
}

function isSaid(cell: Cell): cell is string | number {
  return cell !== null && cell !== undefined;
}

function stated(field: string, cell: Cell): Record<string, string | number> {
  return isSaid(cell) ? { [field]: cell } : {};
}
