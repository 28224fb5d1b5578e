/** What was typed in a table and is no entry yet: by cell. */
export type HalfTyped = readonly (readonly [cell: string, text: string])[];

type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const keyOf = (survey: string): string => `aftrun-typed-${survey}`;
/** More than stands in any table. */
const MOST = 1000;

/** Keeps what stands half typed while the page is away: a phone may end a page in the background without another word.
 *  It lasts as long as the tab does; where the browser keeps nothing, nothing is kept. */
export function keepHalfTyped(survey: string, typed: HalfTyped, shelf = shelfHere()): void {
  try {
    if (typed.length === 0) shelf?.removeItem(keyOf(survey));
    else shelf?.setItem(keyOf(survey), JSON.stringify(typed));
  } catch {
    // A full or forbidden shelf: as before there was one.
  }
}

/** What was kept, once. What is no such thing is left. */
export function takeHalfTyped(survey: string, shelf = shelfHere()): HalfTyped {
  try {
    const text = shelf?.getItem(keyOf(survey)) ?? '[]';
    shelf?.removeItem(keyOf(survey));
    const kept: unknown = JSON.parse(text);
    return Array.isArray(kept) ? kept.slice(0, MOST).filter(isCell) : [];
  } catch {
    return [];
  }
}

function isCell(value: unknown): value is readonly [string, string] {
  return (
    Array.isArray(value) && value.length === 2 && value.every((each) => typeof each === 'string')
  );
}

function shelfHere(): Shelf | undefined {
  try {
    return sessionStorage;
  } catch {
    return undefined;
  }
}
