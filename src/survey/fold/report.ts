/** Two or more standing entries about the same thing, none of which strikes the other. All stand; a person decides. */
export interface Disagreement {
  /** What they are about, in words. */
  readonly about: string;
  /** Ids of the entries, or `<id>#<row>` of an import's row, ascending. */
  readonly entries: readonly string[];
}

/** A standing entry, or a row of one, that no fold can use, and why. It is kept and shown. */
export interface Unused {
  /** Id of the entry, or `<id>#<row>`. */
  readonly id: string;
  readonly kind: string;
  readonly reason: string;
}
