/** Something in a file that cannot be used as it stands, said so that a person can find and mend it. */
export interface Fault {
  /** Line of the file, counted from 1 as an editor shows it: header and `#` lines count. */
  readonly row: number;
  /** The column's name as its header has it, the key of a `#` line, or '' for the whole row. */
  readonly column: string;
  /** What stood there; '' where nothing did. */
  readonly found: string;
  readonly expected: string;
  /** How many rows it refuses, where it stands at the first of several; absent for that row alone. */
  readonly rows?: number;
}

/** Something worth a look that stops nothing. */
export interface Warning {
  readonly row: number;
  readonly column: string;
  readonly text: string;
}

const LONGEST = 60;

/** A fault whose `found` is cut to a length that fits a message. */
export function fault(row: number, column: string, found: string, expected: string): Fault {
  return { row, column: clip(column), found: clip(found), expected };
}

/** A text cut to a length that fits a message, with an ellipsis where something is left off. */
export function clip(text: string): string {
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}
