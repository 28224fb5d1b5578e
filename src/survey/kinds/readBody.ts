import * as v from 'valibot';

import { KINDS, type BodyOf, type KindName } from './kinds.ts';

export type BodyRead<K extends KindName> =
  { readonly ok: true; readonly body: BodyOf<K> } | { readonly ok: false; readonly reason: string };

/** The body of an entry of a kind, or why it cannot be read, with the field's name. Fields that the kind does not
 *  name are kept. */
export function readBody<K extends KindName>(kind: K, body: unknown): BodyRead<K> {
  if (typeof body !== 'object' || body === null || Array.isArray(body)) {
    return { ok: false, reason: 'expected an object' };
  }
  const schema: v.GenericSchema = KINDS[kind].schema;
  const result = v.safeParse(schema, body, { abortEarly: true });
  if (result.success) return { ok: true, body: result.output as BodyOf<K> };
  const [issue] = result.issues;
  const where = v.getDotPath(issue);
  // A field that is not there fails as the object's own issue, in valibot's words.
  const missing = issue.type === 'loose_object' && issue.received === 'undefined';
  const message = missing ? 'expected a value, found nothing' : issue.message;
  return { ok: false, reason: where === null ? message : `${where}: ${message}` };
}
