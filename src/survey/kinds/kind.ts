import type * as v from 'valibot';

/** What an entry of one kind may say: its name, to what it belongs, the form of its body, and which of the body's
 *  fields hold the id of another entry. Fields that a schema does not name are kept as they are. */
export interface Kind<S extends v.GenericSchema = v.GenericSchema> {
  readonly kind: string;
  /** `hull`: the entry's id carries no survey; `survey`: it carries its survey's key; `either`: as it is said. */
  readonly scope: 'hull' | 'survey' | 'either';
  readonly schema: S;
  /** Fields of the body that hold an id, or a list of ids. */
  readonly refers: readonly string[];
}

/** A kind, with the type of its schema kept. */
export function defineKind<S extends v.GenericSchema>(kind: Kind<S>): Kind<S> {
  return kind;
}
