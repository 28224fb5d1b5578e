import type { Entry } from '../book/entry.ts';

/** The kind of an entry that does nothing but strike. */
export const STRIKE = 'strike';

/** Why a strike was made: by a person who meant that entry, or by undo or redo. */
export type StrikeAct = 'strike' | 'undo' | 'redo';

/** What a strike was made for; absent where the entry is of another kind. One that does not say was meant. */
export function strikeActOf({ kind, body }: Entry): StrikeAct | undefined {
  if (kind !== STRIKE) return undefined;
  const act: unknown =
    typeof body === 'object' && body !== null && 'act' in body ? body.act : undefined;
  return act === 'undo' || act === 'redo' ? act : 'strike';
}
