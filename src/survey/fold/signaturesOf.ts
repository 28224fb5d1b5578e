import type { Standing } from '../../book/standing.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import { signedDigest } from '../signedDigest.ts';
import { amendmentsOf, type Amendment } from './amendmentsOf.ts';
import { surveyKeyOf } from './hullOf.ts';
import { readStanding } from './readStanding.ts';
import { signableOf } from './signableOf.ts';

/** A signature under a survey, and how what it covers stands now. */
export interface SurveySignature extends Pick<
  BodyOf<'signature'>,
  'role' | 'name' | 'strokes' | 'digest'
> {
  readonly id: string;
  readonly at: string;
  /** Who was at the device. */
  readonly by: string;
  /** How many entries were signed. */
  readonly covers: number;
  /** `as signed`: all of them are here and say what they said; `missing`: some are not on this device;
   *  `altered`: they are here, and what they say is not what was signed. */
  readonly holds: 'as signed' | 'missing' | 'altered';
  readonly missing: number;
  readonly amendments: readonly Amendment[];
}

/** The standing signatures under a survey, in the order of their ids. One that was struck is withdrawn. */
export function signaturesOf(stands: Standing, surveyKey: string): readonly SurveySignature[] {
  const own = stands.standing.filter(
    ({ _id, kind }) => kind === 'signature' && surveyKeyOf(_id) === surveyKey,
  );
  const stated = readStanding(own).of('signature');
  if (stated.length === 0) return [];
  const now = signableOf(stands, surveyKey);
  const known = new Map(
    [...stands.standing, ...stands.struck.map(({ entry }) => entry)].map((e) => [e._id, e]),
  );
  return stated.map(({ id, at, by, body }) => {
    const rows = body.rows ?? [];
    const here = body.entries.flatMap((signed) => known.get(signed) ?? []);
    const missing = body.entries.length - here.length;
    const same = missing === 0 && signedDigest(here, rows) === body.digest;
    return {
      id,
      at,
      by,
      role: body.role,
      name: body.name,
      ...(body.strokes !== undefined && { strokes: body.strokes }),
      digest: body.digest,
      covers: body.entries.length,
      holds: missing > 0 ? 'missing' : same ? 'as signed' : 'altered',
      missing,
      amendments: amendmentsOf(stands, { entries: body.entries, rows }, now),
    };
  });
}

/** What a person states by signing a survey now; the body of an entry of kind `signature`. */
export function signatureNow(
  stands: Standing,
  surveyKey: string,
  who: Pick<BodyOf<'signature'>, 'role' | 'name' | 'strokes'>,
): BodyOf<'signature'> {
  const { entries, rows } = signableOf(stands, surveyKey);
  return {
    ...who,
    entries: entries.map(({ _id }) => _id),
    ...(rows.length > 0 && { rows: [...rows] }),
    digest: signedDigest(entries, rows),
  };
}
