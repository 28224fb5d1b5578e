import { uncheckedDraft, type Draft } from './kinds/draft.ts';
import { EXTRA_COLUMN, IMPORT_COLUMNS, IMPORT_ROWS, LINE_COLUMN } from './kinds/import.ts';
import type { KeptLog, LogReadings } from './log/logReadings.ts';
import type { Placement, PlacementAcross, Reading, VoidStation } from './survey.ts';

/** A placement, and the ref or id of the entry that states it. */
export interface Acts {
  readonly placement: string;
  readonly of: Placement | PlacementAcross;
  /** Refs of the lines that a placement across was read on, by the lines' ids. */
  readonly lines?: ReadonlyMap<string, string>;
}

/** What an import says of the file behind it. */
export interface FileFacts {
  /** Its name. */
  readonly file?: string;
  /** Which heading was read as what. */
  readonly mapping?: Readonly<Record<string, string>>;
  /** The unit that each figure stood in. */
  readonly units?: Readonly<Record<string, string>>;
  /** Where the file is kept whole: needed where its placements are logs. */
  readonly kept?: Pick<KeptLog, 'name' | 'sha256' | 'given'>;
}

/** The draft that keeps a file whole is called by this. */
export const KEPT_FILE = 'kept file';

/** The readings, voids and stations put off of some placements as rows of imports, as many imports as they need. */
export function importDrafts(acts: readonly Acts[], options: FileFacts): readonly Draft[] {
  const placements = acts.map(({ placement }) => placement);
  const all = acts.flatMap(({ of }) => [...of.readings, ...of.voids, ...of.later]);
  const headings = [...new Set(all.flatMap(({ extra = {} }) => Object.keys(extra)))];
  const lines = [...new Set(acts.flatMap((each) => crossed(each).map(({ ref }) => ref)))];
  const across = lines.length > 0 ? [LINE_COLUMN] : [];
  const columns = [
    ...IMPORT_COLUMNS,
    ...across,
    ...headings.map((heading) => EXTRA_COLUMN + heading),
  ];
  const rows = acts.flatMap((each, place) => {
    const refs = new Map(crossed(each).map(({ id, ref }) => [id, lines.indexOf(ref)]));
    const more = (said: object): readonly Cell[] =>
      lines.length === 0 ? [] : ['line' in said ? (refs.get(String(said.line)) ?? null) : null];
    const row = (act: 'reading' | 'void' | 'later') => (said: Parameters<typeof rowOf>[2]) =>
      rowOf(act, place, said, more(said), headings);
    const { readings, voids, later } = each.of;
    return [...readings.map(row('reading')), ...voids.map(row('void')), ...later.map(row('later'))];
  });
  const drafts: Draft[] = [];
  for (let from = 0; from < rows.length; from += IMPORT_ROWS) {
    const part = rows.slice(from, from + IMPORT_ROWS);
    drafts.push(
      uncheckedDraft('import', {
        ...(options.file !== undefined && { file: options.file }),
        mapping: { ...options.mapping },
        units: { ...options.units },
        count: part.length,
        placements,
        ...(lines.length > 0 && { lines }),
        columns,
        rows: part,
      }),
    );
  }
  return [...keptDraft(acts, options), ...drafts];
}

/** The lines that a placement across was read on. */
function crossed({ lines }: Acts): readonly { readonly id: string; readonly ref: string }[] {
  return [...(lines ?? [])].map(([id, ref]) => ({ id, ref }));
}

/** The import that keeps a file whole, where the placements are its logs. */
function keptDraft(acts: readonly Acts[], { kept, file, mapping, units }: FileFacts): Draft[] {
  const logged = acts.filter(({ of }) => 'log' in of && of.log !== undefined);
  if (logged.length === 0) return [];
  if (kept === undefined) {
    throw new RangeError('the kept file is expected beside the entries of a log');
  }
  const lays = logged.map(({ of }) => ({
    lay: of.id,
    count: (of as Placement & { readonly log: LogReadings }).log.count,
  }));
  return [
    uncheckedDraft(
      'import',
      {
        ...(file !== undefined && { file }),
        mapping: { ...mapping },
        units: { ...units },
        count: lays.reduce((sum, { count }) => sum + count, 0),
        placements: logged.map(({ placement }) => placement),
        kept: { name: kept.name, sha256: kept.sha256, given: { ...kept.given }, lays },
        columns: IMPORT_COLUMNS.slice(0, 4),
        rows: [],
      },
      { ref: KEPT_FILE },
    ),
  ];
}

type Cell = string | number | null;

/** A row in the order of the columns; a cell that says nothing is null, as JSON has it. */
function rowOf(
  act: 'reading' | 'void' | 'later',
  place: number,
  said: Pick<Reading, 'station'> & Partial<Omit<Reading, 'station'> & VoidStation>,
  more: readonly Cell[],
  headings: readonly string[],
): Cell[] {
  const { station, gap, look, division, reads, weight, reason, note, extra = {} } = said;
  const cells = [
    ...[act, place, station.mm, station.text, gap?.mm, gap?.text],
    ...[look, division, reads, weight, reason, note],
    ...more,
    ...headings.map((heading) => (Object.hasOwn(extra, heading) ? extra[heading] : undefined)),
  ];
  return cells.map((cell) => cell ?? null);
}
