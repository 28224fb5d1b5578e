import type { Stated } from './readStanding.ts';

/** A free remark, and who made it. */
export interface Remark {
  readonly id: string;
  readonly text: string;
  /** Id of the thing that it is about. */
  readonly about?: string;
  readonly at: string;
  readonly by: string;
}

/** Remarks, in the order of their ids. */
export function remarksOf(stated: readonly Stated<'note'>[]): readonly Remark[] {
  return stated.map(({ id, at, by, body }) => ({
    id,
    text: body.text,
    ...(body.about !== undefined && { about: body.about }),
    at,
    by,
  }));
}
