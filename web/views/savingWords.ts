/** How saving stands, as the store tells it. */
export interface SavingFacts {
  readonly pending: number;
  readonly failure?: { readonly words: string } | undefined;
}

export interface SavingWords {
  readonly state: 'saving' | 'saved' | 'not saved';
  readonly words: string;
}

/** What the screen says of saving: no more than what the database has acknowledged. */
export function savingWords({ pending, failure }: SavingFacts): SavingWords {
  if (pending === 0) return { state: 'saved', words: 'saved' };
  if (failure === undefined) return { state: 'saving', words: 'saving…' };
  const count = pending === 1 ? '' : ` (${pending})`;
  return { state: 'not saved', words: `NOT saved${count}: kept here, trying again` };
}
