import type { Typed } from '../survey.ts';

/** A typed length with nothing beside it. */
export function pickTyped({ mm, text }: Typed): Typed {
  return { mm, text };
}
