/** The envelope of an entry: everything a person states is one, and none is ever changed.
 *  What an entry says sits in `body`; this room does not know what that means. */
export interface Strike {
  readonly entry: string;
  /** One reading of an import, by its row. */
  readonly row?: number;
}

export interface Entry {
  /** `<hull: 12>:<survey: 12, or 0>:<time: 10><random: 16>`, lower-case Crockford base32. */
  readonly _id: string;
  /** Version of the envelope. */
  readonly v: number;
  readonly kind: string;
  /** When it was stated, ISO 8601 with a zone. */
  readonly at: string;
  readonly by: string;
  readonly device: string;
  /** Version of the app that wrote it. */
  readonly app: string;
  readonly strikes?: readonly Strike[];
  readonly why?: string;
  readonly body: unknown;
}
