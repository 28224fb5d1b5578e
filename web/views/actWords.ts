import { withUnit } from '../../src/survey/withUnit.ts';
import type { Entry } from '../../src/book/entry.ts';
import { isKind, type KindName } from '../../src/survey/kinds/kinds.ts';
import { readBody } from '../../src/survey/kinds/readBody.ts';

/** What one act said, for the head of the screen and for undo. */
export interface ActWords {
  /** "5/32 in", "void", "put off", "the tolerance". */
  readonly what: string;
  /** "12 in", where it is about a station. */
  readonly at?: string;
  /** Id of the laying, where it is about a station. */
  readonly lay?: string;
  /** Id of the line, where the edge lies across lines. */
  readonly line?: string;
}

const NAMES: Readonly<Record<KindName, string>> = {
  acceptance: 'a difference accepted',
  cause: 'what was found of another cause',
  complaint: 'what the boat does',
  condition: 'a condition',
  'control line': 'a control line',
  decision: 'the owner’s choice',
  'edge check': 'a check of a straightedge',
  feature: 'something on the bottom',
  gate: 'a gate',
  gauge: 'a gauge',
  hull: 'the hull',
  import: 'a file taken in',
  later: 'a station put off',
  line: 'a line',
  note: 'a remark',
  photo: 'a photo',
  placement: 'a laying of the edge',
  'placement across': 'a laying of the edge across lines',
  reading: 'a reading',
  repair: 'a repair',
  'running particulars': 'particulars for the running trim',
  'trial pair': 'trials compared',
  'sea trial': 'a run of a sea trial',
  sheet: 'a worksheet issued',
  signature: 'a signature',
  straightedge: 'a straightedge',
  support: 'the supports',
  survey: 'the survey’s own facts',
  void: 'a void',
  'weight item': 'a weight',
};

/** The act that these entries make up, in words. A reading that began a new laying is the reading. */
export function actWords(entries: readonly Entry[], workUnit: 'mm' | 'in'): ActWords | undefined {
  const last =
    entries.find(({ kind }) => ['reading', 'void', 'later'].includes(kind)) ?? entries[0];
  if (last === undefined) return undefined;
  const kinds = new Set(entries.map(({ kind }) => kind));
  if (kinds.has('import')) return { what: NAMES.import };
  if (kinds.has('survey') && kinds.has('placement')) return { what: 'the set-up' };
  if (!isKind(last.kind)) return { what: 'the last entry' };
  if (last.kind === 'reading') {
    const read = readBody('reading', last.body);
    if (!read.ok) return { what: NAMES.reading };
    const { gap, station, placement, line } = read.body;
    return {
      what: withUnit(gap, workUnit),
      at: withUnit(station, workUnit),
      lay: placement,
      ...(line !== undefined && { line }),
    };
  }
  if (last.kind === 'void' || last.kind === 'later') {
    const read = readBody(last.kind, last.body);
    if (!read.ok) return { what: NAMES[last.kind] };
    const { station, placement, line } = read.body;
    const what = last.kind === 'void' ? 'void' : 'put off';
    return {
      what,
      at: withUnit(station, workUnit),
      lay: placement,
      ...(line !== undefined && { line }),
    };
  }
  if (last.kind === 'condition') {
    const read = readBody('condition', last.body);
    return { what: read.ok ? `“${read.body.about}”` : NAMES.condition };
  }
  return { what: NAMES[last.kind] };
}
