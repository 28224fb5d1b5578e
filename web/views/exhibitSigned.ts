import type { Amendment } from '../../src/survey/fold/amendmentsOf.ts';
import type { SurveySignature } from '../../src/survey/fold/signaturesOf.ts';
import { listed } from '../../src/survey/sentence.ts';
import type { Says } from './bookSays.ts';
import { SIGNED_AS } from '../../src/survey/kinds/signature.ts';

/** A signature as it is printed. */
export interface SignedView {
  readonly id: string;
  /** "Measured", "Checked". */
  readonly as: string;
  readonly name: string;
  /** As drawn, in a field of 1000 by 250; absent where the name was typed in its place. */
  readonly path?: string;
  readonly when: string;
  readonly covers: string;
  /** In groups of eight characters. */
  readonly digest: string;
  /** How what was signed stands now. */
  readonly state: string;
}

export interface AmendmentRow {
  readonly when: string;
  readonly who: string;
  readonly what: string;
  readonly why: string;
}

export interface SignaturesView {
  readonly signed: readonly SignedView[];
  /** What nobody has signed on screen: lines to sign on paper. */
  readonly open: readonly string[];
  readonly amendments: readonly {
    readonly key: string;
    readonly since: string;
    readonly rows: readonly AmendmentRow[];
  }[];
}

const AS = { measured: 'Measured', checked: 'Checked' } as const;

export function signaturesView(signatures: readonly SurveySignature[], says: Says): SignaturesView {
  const signed = new Set(signatures.map(({ role }) => role));
  const byDigest = new Map<string, SurveySignature[]>();
  for (const signature of signatures) {
    if (signature.amendments.length === 0) continue;
    const alike = byDigest.get(signature.digest);
    if (alike === undefined) byDigest.set(signature.digest, [signature]);
    else alike.push(signature);
  }
  return {
    signed: signatures.map((signature) => ({
      id: signature.id,
      as: AS[signature.role],
      name: signature.name,
      ...(signature.strokes !== undefined && { path: pathOf(signature.strokes) }),
      when: showTime(signature.at),
      covers: `the record of ${signature.covers} ${signature.covers === 1 ? 'entry' : 'entries'} as it stood then`,
      digest: (signature.digest.match(/.{8}/g) ?? []).join(' '),
      state: stateOf(signature),
    })),
    open: SIGNED_AS.filter((role) => !signed.has(role)).map((role) => AS[role]),
    amendments: [...byDigest].map(([key, alike]) => ({
      key,
      since: `Since ${listed(alike.map(({ name, role, at }) => `${name} (${role}) signed, ${showTime(at)}`))}`,
      rows: alike[0].amendments.map((amendment) => amendmentRow(amendment, says)),
    })),
  };
}

function stateOf({ holds, missing, amendments, covers }: SurveySignature): string {
  const amended =
    amendments.length === 0
      ? 'Nothing has been amended since.'
      : `Amended since in ${amendments.length} ${amendments.length === 1 ? 'place' : 'places'}, listed below: this exhibit shows the record as it stands now, and this signature covers it as it stood before.`;
  switch (holds) {
    case 'as signed':
      return amended;
    case 'missing':
      return `${missing} of the ${covers} entries that were signed are not on this device: this exhibit does not show all that was signed. ${amended}`;
    case 'altered':
      return `What was signed is not what stands here under the same ids: do not rely on this signature. ${amended}`;
  }
}

/** One amendment in words: what was added, struck or put in another's place, when, by whom, why. */
export function amendmentRow(
  { is, what, insteadOf, at, by, why }: Amendment,
  says: Says,
): AmendmentRow {
  const said = says(what);
  return {
    when: at === undefined ? 'not known' : showTime(at),
    who: by ?? 'not known',
    what: whatSaid(),
    why: why ?? 'no reason given',
  };

  function whatSaid(): string {
    switch (is) {
      case 'added':
        return `Added: ${said}`;
      case 'struck':
        return `Struck: ${said}`;
      case 'restored':
        return `Struck when it was signed, stands again: ${said}`;
      case 'not counted':
        return `Stands, and no longer speaks for this survey: ${said}`;
      case 'changed':
        return `Changed: ${said}; before: ${insteadOf.map(says).join('; ')}`;
    }
  }
}

/** "2026-05-04 09:30 UTC"; another zone as it was written. */
export function showTime(at: string): string {
  const match = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)[^Z+-]*(Z|[+-]\d\d:\d\d)$/.exec(at);
  if (match === null) return at;
  const [, day, time, zone] = match;
  return `${day} ${time} ${zone === 'Z' ? 'UTC' : `UTC${zone}`}`;
}

/** Strokes in a field of 1000 by 250. A dot is a stroke without length: round ends make it seen. */
export function pathOf(strokes: readonly (readonly number[])[]): string {
  const at = (part: number) => Math.round(part * 1000);
  return strokes
    .map((stroke) => {
      const points: string[] = [];
      for (let i = 0; i + 1 < stroke.length; i += 2) {
        points.push(`${at(stroke[i])},${at(stroke[i + 1])}`);
      }
      const [first, ...rest] = points;
      if (first === undefined) return '';
      return rest.length === 0 ? `M${first}h0` : `M${first}L${rest.join(' ')}`;
    })
    .join('');
}
