import type { StrikeNote } from './bookView.ts';

/** Who struck it, when and why, and what stands in its place, in a sentence. */
export function strikeWords(note: StrikeNote): string {
  const why = note.why === undefined ? '' : `: ${note.why}`;
  const instead =
    note.instead === undefined ? 'Nothing stands in its place.' : `In its place: ${note.instead}.`;
  const act = note.undone ? 'Taken back' : 'Struck';
  return `${act} by ${note.by}, ${note.day} ${note.time}, ${note.device}${why}. ${instead}`;
}
