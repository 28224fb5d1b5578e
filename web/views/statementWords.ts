import type { Standing } from '../../src/book/standing.ts';
import { actsOf } from '../../src/survey/fold/actsOf.ts';
import type { Statement } from '../../src/survey/fold/amendmentsOf.ts';
import { hullOf } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import { isKind } from '../../src/survey/kinds/kinds.ts';
import { readBody } from '../../src/survey/kinds/readBody.ts';
import type { Typed } from '../../src/survey/survey.ts';
import { actWords } from './actWords.ts';
import { withUnit } from './readingText.ts';

/** What placements and things are called where statements are put in words: by the ids that entries refer to. */
export type Names = ReadonlyMap<string, string>;

/** "P18in" of each placement of a hull, struck or not, and the name of each straightedge. */
export function namesIn({ standing, struck }: Standing): Names {
  const all = [...standing, ...struck.map(({ entry }) => entry)];
  const hull = hullOf(standing);
  const lines = new Map(
    hull.lines.flatMap(({ ids, name }) => ids.map((id) => [id, name] as const)),
  );
  const names = new Map<string, string>(lines);
  for (const { id, name } of hull.straightedges) names.set(id, name);
  for (const { id, body } of readStanding(all).of('placement')) {
    names.set(id, lines.get(body.line) ?? 'a line that does not stand any more');
  }
  return names;
}

/** A statement as a stranger can read it: "reading 5/32 in at 12 in on P18in". */
export function statementWords(
  { entry, row }: Statement,
  names: Names,
  workUnit: 'mm' | 'in',
): string {
  if (row !== undefined) {
    const { acts } = actsOf(readStanding([entry]), new Map());
    const act = acts.find(({ source }) => source === `${entry._id}#${row}`);
    if (act === undefined) return `row ${row + 1} of a file that cannot be read`;
    return stationWords(act.act, act.body, names, workUnit);
  }
  const { kind, body } = entry;
  if (!isKind(kind)) return `an entry of the kind “${kind}”`;
  if (kind === 'reading' || kind === 'void' || kind === 'later') {
    const read = readBody(kind, body);
    if (read.ok) return stationWords(kind, read.body, names, workUnit);
  }
  if (kind === 'condition') {
    const read = readBody(kind, body);
    if (read.ok) return `${read.body.about}: ${conditionText(read.body)}`;
  }
  if (kind === 'placement') {
    const read = readBody(kind, body);
    if (read.ok) {
      return `laying ${read.body.name} of the straightedge on ${names.get(read.body.line) ?? 'a line'}`;
    }
  }
  if (kind === 'support') {
    const read = readBody(kind, body);
    if (read.ok) return `support: ${read.body.what}`;
  }
  if (kind === 'note') {
    const read = readBody(kind, body);
    if (read.ok) return `remark “${read.body.text}”`;
  }
  if (kind === 'gate') {
    const read = readBody(kind, body);
    if (read.ok) return `gate “${read.body.gate}”: ${read.body.answer}`;
  }
  if (kind === 'edge check') {
    const read = readBody(kind, body);
    if (read.ok) {
      const of = names.get(read.body.edge);
      return `check of the straightedge${of === undefined ? '' : ` “${of}”`}${read.body.date === undefined ? '' : ` of ${read.body.date}`}`;
    }
  }
  return actWords([entry], workUnit)?.what ?? kind;
}

function stationWords(
  is: 'reading' | 'void' | 'later',
  body: object,
  names: Names,
  workUnit: 'mm' | 'in',
): string {
  const at = ({ station, placement }: { readonly station: Typed; readonly placement: string }) =>
    `at ${withUnit(station, workUnit)} on ${names.get(placement) ?? 'a line'}`;
  if (is === 'reading') {
    const read = readBody(is, body);
    if (!read.ok) return 'a reading';
    return `reading ${withUnit(read.body.gap, workUnit)} ${at(read.body)}`;
  }
  const read = readBody(is, body);
  const word = is === 'void' ? 'void' : 'put off';
  return read.ok ? `${word} ${at(read.body)}: ${read.body.reason}` : word;
}

function conditionText(body: {
  readonly said?: string;
  readonly gap?: { readonly text: string };
  readonly over?: { readonly text: string };
  readonly length?: { readonly text: string };
}): string {
  const figures =
    body.gap !== undefined && body.over !== undefined
      ? `${body.gap.text} over ${body.over.text}`
      : body.length?.text;
  return body.said ?? figures ?? 'stated';
}
