import { LETTERS } from './sectionMarks.ts';

export interface VerdictSign {
  readonly letter: string;
  readonly is: keyof typeof LETTERS;
}

/** The signs that stand beside a verdict's word: one a class that it names, none for too few readings. */
export function verdictSigns(word: string): readonly VerdictSign[] {
  const said = word.toLowerCase();
  return (Object.keys(LETTERS) as (keyof typeof LETTERS)[]).flatMap((is) =>
    new RegExp(`\\b${is}\\b`).test(said) ? [{ letter: LETTERS[is], is }] : [],
  );
}
