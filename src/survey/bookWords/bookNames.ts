import type { Entry } from '../../book/entry.ts';
import { NO_SURVEY } from '../../book/id.ts';
import { acrossSideWords } from '../acrossSide.ts';
import { bodyOnce } from '../fold/bodyOnce.ts';
import { lineName } from '../fold/hullLinesOf.ts';
import { surveyKeyOf } from '../fold/hullOf.ts';
import type { BodyOf, KindName } from '../kinds/kinds.ts';
import { withUnit } from '../withUnit.ts';

/** What the ids in entries stand for, as a person would say it. */
export interface BookNames {
  /** The unit that people work in, of the survey that an entry belongs to; of the last one for the hull's own. */
  readonly unitOf: (entry: string) => 'mm' | 'in';
  /** The body that speaks of a thing of a kind: the statement that stands, else the last that there was. */
  readonly body: <K extends KindName>(kind: K, id: string) => BodyOf<K> | undefined;
  readonly line: (id: string) => string;
  /** "P18in", or "P18in (laying 2, repeat 2)" where it is not the first. */
  readonly lay: (id: string) => string;
  readonly straightedge: (id: string) => string;
  readonly gauge: (id: string) => string;
  readonly sheet: (id: string) => string;
  /** Of a survey's key. */
  readonly survey: (key: string) => string;
  /** Every content that came under an id. */
  readonly entries: (id: string) => readonly Entry[];
}

type Statement = { readonly stands: boolean; readonly body: BodyOf<KindName> };

/** Names for the entries of one hull, struck ones too, so that a struck reading still tells its line. `stands`: whether
 *  the entry of an id does. Throws RangeError on an entry whose id has no such form. */
export function bookNames(entries: readonly Entry[], stands: (id: string) => boolean): BookNames {
  const byId = new Map<string, Entry[]>();
  const things = new Map<string, Statement>();
  const units = new Map<string, 'mm' | 'in'>();
  const dates = new Map<string, string>();
  const first = new Map<string, string>();
  for (const entry of [...entries].sort((a, b) => (a._id < b._id ? -1 : 1))) {
    const known = byId.get(entry._id);
    if (known === undefined) byId.set(entry._id, [entry]);
    else known.push(entry);
    const read = bodyOnce(entry);
    if (read?.ok !== true) continue;
    const { kind, body } = read;
    const thing = `${kind} ${sameAsOf(body) ?? entry._id}`;
    first.set(`${kind} ${entry._id}`, thing);
    const said = { stands: stands(entry._id), body };
    if (said.stands || things.get(thing)?.stands !== true) things.set(thing, said);
  }
  for (const [thing, { body }] of things) {
    if (!thing.startsWith('survey ')) continue;
    const { workUnit, date } = body as BodyOf<'survey'>;
    const key = surveyKeyOf(thing.slice('survey '.length));
    units.set(key, workUnit);
    if (date !== undefined) dates.set(key, date);
    units.set(NO_SURVEY, workUnit);
  }
  const bodyOf = <K extends KindName>(kind: K, id: string): BodyOf<K> | undefined => {
    const key = `${kind} ${id}`;
    return (things.get(first.get(key) ?? key) ?? things.get(key))?.body;
  };
  const unitOf = (id: string) =>
    units.get(surveyKeyOf(id)) ?? units.get(NO_SURVEY) ?? ('mm' as const);
  const line = (id: string) => {
    const body = bodyOf('line', id);
    return body === undefined ? 'a line that is not here' : lineName(body);
  };
  return {
    unitOf,
    body: bodyOf,
    line,
    lay: (id) => {
      const body = bodyOf('placement', id);
      if (body !== undefined) return line(body.line) + nthOf(body);
      const across = bodyOf('placement across', id);
      if (across === undefined) return 'a laying that is not here';
      return `${across.direction} ${acrossSideWords(across.side)}${nthOf(across)}`;
    },
    straightedge: (id) => {
      const name = bodyOf('straightedge', id)?.name;
      return name === undefined ? 'a straightedge that is not here' : `“${name}”`;
    },
    gauge: (id) => {
      const body = bodyOf('gauge', id);
      if (body === undefined) return 'a gauge that is not here';
      const { name, division } = body;
      return division === undefined || name.includes(division.text)
        ? `“${name}”`
        : `“${name}” (${withUnit(division, unitOf(id))})`;
    },
    sheet: (id) => {
      const number = bodyOf('sheet', id)?.number;
      return number === undefined ? 'a worksheet that is not here' : `worksheet ${number}`;
    },
    survey: (key) => {
      const date = dates.get(key);
      return date === undefined ? `the survey ${key}` : `the survey of ${date}`;
    },
    entries: (id) => byId.get(id) ?? [],
  };
}

function sameAsOf(body: BodyOf<KindName>): string | undefined {
  return 'sameAs' in body && typeof body.sameAs === 'string' ? body.sameAs : undefined;
}

function nthOf({ name, repeat }: BodyOf<'placement' | 'placement across'>): string {
  const nth = [
    ...(name === '1' ? [] : [`laying ${name}`]),
    ...(repeat === 1 ? [] : [`repeat ${repeat}`]),
  ];
  return nth.length === 0 ? '' : ` (${nth.join(', ')})`;
}
