import type { Entry } from '../../src/book/entry.ts';
import { parseId } from '../../src/book/id.ts';
import type { Standing } from '../../src/book/standing.ts';
import { STRIKE, strikeActOf, type StrikeAct } from '../../src/survey/strikeKind.ts';

export { STRIKE, type StrikeAct };

/** What one tap or one Enter wrote: one entry, or several that belong together. */
export interface Act {
  readonly is: 'statement' | 'undo' | 'redo';
  readonly entries: readonly Entry[];
}

/** What undo and redo would take back. */
export interface Steps {
  /** The last statement of this device that stands; of several entries, those that stand. */
  readonly undo?: Act;
  /** The last undo of this device that stands, unless something was stated since. */
  readonly redo?: Act;
}

/** Finds the steps from the entries alone, so that they are the same after a reload. Entries of one act share the
 *  random end of their ids. `owns`: whether an entry's device is this one. */
export function stepsOf(standing: Standing, owns: (device: string) => boolean): Steps {
  const acts = new Map<string, { is: Act['is']; time: number; entries: Entry[] }>();
  for (const entry of standing.standing) {
    if (!owns(entry.device)) continue;
    const parsed = parseId(entry._id);
    if (!parsed.ok) continue;
    const act = acts.get(parsed.random);
    if (act === undefined) {
      acts.set(parsed.random, { is: isOf(entry), time: parsed.time, entries: [entry] });
    } else {
      act.entries.push(entry);
      act.time = Math.max(act.time, parsed.time);
    }
  }
  let undo: { is: Act['is']; time: number; entries: Entry[] } | undefined;
  let redo: typeof undo;
  for (const act of acts.values()) {
    if (act.is === 'statement' && (undo === undefined || act.time > undo.time)) undo = act;
    if (act.is === 'undo' && (redo === undefined || act.time > redo.time)) redo = act;
  }
  if (redo !== undefined && undo !== undefined && undo.time > redo.time) redo = undefined;
  return {
    ...(undo !== undefined && { undo: { is: undo.is, entries: undo.entries } }),
    ...(redo !== undefined && { redo: { is: redo.is, entries: redo.entries } }),
  };
}

function isOf(entry: Entry): Act['is'] {
  const act = strikeActOf(entry);
  return act === 'undo' || act === 'redo' ? act : 'statement';
}
