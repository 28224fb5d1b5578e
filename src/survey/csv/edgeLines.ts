import { GAP_BOUNDS, LENGTH_BOUNDS, outside } from '../bounds.ts';
import { checkPoints } from '../edge/checkPoints.ts';
import { UNNAMED_EDGE } from '../edge/edgeKnown.ts';
import { END_FOR_END_REFUSED } from '../edge/endForEnd.ts';
import { readSag, SAG_EXPECTED } from '../edge/sagText.ts';
import { readLength } from '../readingText.ts';
import type {
  Edge,
  EdgeBound,
  EdgeCheck,
  EdgeKind,
  Face,
  PairsPoint,
  ReversalPoint,
} from '../survey.ts';
import { fault, type Fault } from './fault.ts';

const KEYS = [
  'edge known as',
  'edge known length',
  'edge type',
  'edge bound',
  'edge sag',
  'edge check',
  'edge check face',
  'edge check read to',
  'edge check at',
] as const;
export const EDGE_KEYS: ReadonlySet<string> = new Set(KEYS);

interface CheckDraft {
  readonly row: number;
  readonly method: EdgeCheck['method'];
  readonly date?: string;
  face?: Face;
  readTo?: number;
  readonly reversal: ReversalPoint[];
  readonly pairs: PairsPoint[];
  readonly rows: number[];
}

interface EdgeDraft {
  readonly name?: string;
  length?: number;
  kind?: EdgeKind;
  bound?: EdgeBound;
  sag?: Edge['sag'];
  readonly checks: CheckDraft[];
}

/** What the `# edge …:` lines of a file say of its straightedges. They speak of the edge of the last `edge known as:`
 *  line, or before any of that of the `edge:` line; `edge check:` begins a check, of which the lines after it say more. */
export class EdgeLines {
  readonly #edges: EdgeDraft[] = [];

  /** Takes a line; what was expected instead, where it cannot be read. `key` is one of `EDGE_KEYS`. */
  take(key: string, value: string, row: number): string | undefined {
    if (key === 'edge known as') {
      this.#edges.push({ name: value, checks: [] });
      return undefined;
    }
    const edge = this.#current();
    switch (key) {
      case 'edge known length':
        return read(value, (mm) => (edge.length = mm));
      case 'edge type': {
        const kind = (['bar', 'taut string', 'laser line'] as const).find(
          (each) => each === value.toLowerCase(),
        );
        if (kind === undefined) return 'bar or taut string or laser line';
        edge.kind = kind;
        return undefined;
      }
      case 'edge bound':
        return this.#bound(edge, value);
      case 'edge sag': {
        const sag = readSag(value);
        if (sag === undefined) return SAG_EXPECTED;
        edge.sag = sag;
        return undefined;
      }
      case 'edge check':
        return this.#check(edge, value, row);
    }
    const check = edge.checks.at(-1);
    if (check === undefined) return 'an "edge check:" line before it';
    switch (key) {
      case 'edge check face': {
        const face = (['marked', 'other'] as const).find((each) => each === value.toLowerCase());
        if (face === undefined) return 'marked or other';
        check.face = face;
        return undefined;
      }
      case 'edge check read to':
        return read(value, (mm) => (check.readTo = mm));
      default:
        return point(check, value, row);
    }
  }

  /** The edges as they were understood, and the checks among them that nothing can be learned from, by their rows.
   *  `common`: the name in the file's `edge:` line. `length`: that of the `edge length:` line, mm. */
  finish(
    common: string | undefined,
    length: number | undefined,
  ): { readonly edges: readonly Edge[]; readonly faults: readonly Fault[] } {
    const faults: Fault[] = [];
    const edges = this.#edges.map((draft): Edge => {
      const { name = common ?? UNNAMED_EDGE, checks } = draft;
      const facts = {
        ...(draft.length !== undefined && { length: draft.length }),
        ...(draft.kind !== undefined && { kind: draft.kind }),
        ...(draft.bound !== undefined && { bound: draft.bound }),
        ...(draft.sag !== undefined && { sag: draft.sag }),
      };
      const known = checks.flatMap((each): readonly EdgeCheck[] => {
        const check = checkOf(each);
        if (typeof check === 'string') {
          faults.push(fault(each.row, 'edge check', each.method, check));
          return [];
        }
        const points = checkPoints(check, draft.length ?? (name === common ? length : undefined));
        if (points.ok) return [check];
        const at = points.point === undefined ? each.row : (each.rows[points.point] ?? each.row);
        faults.push(fault(at, 'edge check', each.method, points.words));
        return [check];
      });
      return { name, ...facts, ...(known.length > 0 && { checks: known }) };
    });
    return { edges: edges.filter((edge) => Object.keys(edge).length > 1), faults };
  }

  /** Whether anything was said before an edge was named. */
  get unnamed(): boolean {
    return this.#edges.some(({ name }) => name === undefined);
  }

  #current(): EdgeDraft {
    const last = this.#edges.at(-1);
    if (last !== undefined) return last;
    const first: EdgeDraft = { checks: [] };
    this.#edges.push(first);
    return first;
  }

  #bound(edge: EdgeDraft, value: string): string | undefined {
    const expected = 'what it may be out by over a length, such as 0.3 mm over 1800 mm';
    const match = /^(.+?)\s+over\s+(.+)$/i.exec(value);
    if (match === null) return expected;
    const [size, over] = [readLength(match[1]), readLength(match[2])];
    if (!size.ok || !over.ok || size.mm <= 0 || over.mm <= 0) return expected;
    const strange = outside(size.mm, GAP_BOUNDS) ?? outside(over.mm, LENGTH_BOUNDS);
    if (strange !== undefined) return strange;
    edge.bound = { size: size.mm, over: over.mm };
    return undefined;
  }

  #check(edge: EdgeDraft, value: string, row: number): string | undefined {
    if (/^end[\s-]*(for|to|over)[\s-]*end\b/i.test(value)) return END_FOR_END_REFUSED;
    const match = /^(reversal|three edges)(?:\s+(.+))?$/i.exec(value);
    if (match === null) return 'reversal or three edges, and a date, such as reversal 2026-03-01';
    const method = match[1].toLowerCase() === 'reversal' ? 'reversal' : 'three edges';
    const date = match[2];
    const more = { reversal: [], pairs: [], rows: [] };
    edge.checks.push({ row, method, ...(date !== undefined && { date }), ...more });
    return undefined;
  }
}

function checkOf({ method, date, face, readTo, reversal, pairs }: CheckDraft): EdgeCheck | string {
  if (readTo === undefined) return 'what it was read to, such as "edge check read to: 0.5 mm"';
  const facts = {
    ...(date !== undefined && { date }),
    ...(face !== undefined && { face }),
    readTo,
  };
  return method === 'reversal'
    ? { method, ...facts, points: reversal }
    : { method, ...facts, points: pairs };
}

/** "450 mm: 0.5 mm", or with three gaps "450 mm: 0.1 mm; 0.2 mm; 0 mm". */
function point(check: CheckDraft, value: string, row: number): string | undefined {
  const three = check.method === 'three edges';
  const expected = three
    ? 'a place from end A and three gaps, such as 450 mm: 0.1 mm; 0.2 mm; 0 mm'
    : 'a place from end A and how far the lines stand apart there, such as 450 mm: 0.5 mm';
  const [place, ...rest] = value.split(':');
  const at = readLength(place);
  const figures = rest
    .join(':')
    .split(';')
    .map((text) => readLength(text));
  if (!at.ok || figures.length !== (three ? 3 : 1)) return expected;
  const mm = figures.flatMap((figure) => (figure.ok ? [figure.mm] : []));
  if (mm.length < figures.length) return expected;
  check.rows.push(row);
  if (three) {
    check.pairs.push({ at: at.mm, withSecond: mm[0], secondWithThird: mm[1], withThird: mm[2] });
  } else check.reversal.push({ at: at.mm, apart: mm[0] });
  return undefined;
}

function read(value: string, set: (mm: number) => void): string | undefined {
  const length = readLength(value);
  if (!length.ok || !(length.mm > 0)) return 'a length above 0 with its unit, such as 0.5 mm';
  set(length.mm);
  return undefined;
}
