/** Readings of a log as columns: a million of them are 16 MB rather than a million objects. From aft forward; readings
 *  of one station and look have been averaged. Lengths in mm. */
export interface LogSeries {
  readonly x: Float64Array;
  /** As read: neither block nor gauge is corrected for. */
  readonly gap: Float64Array;
  /** How many raw readings are in each; absent where it is one in all. */
  readonly weight?: Uint32Array;
  /** Row of the file on which each (the first of those averaged) stands. */
  readonly row: Uint32Array;
}

/** Which lay of which kept file a log is. */
export interface KeptLog {
  /** Id of the entry that keeps the file, and the name of the attachment in which it stands, gzipped. */
  readonly entry: string;
  readonly name: string;
  /** Of the file's bytes, before it was gzipped. */
  readonly sha256: string;
  /** Id of the lay among the placements that the file is read into. */
  readonly lay: string;
  /** Units that the person gave beside the file, by column, as "1/32 in". */
  readonly given: Readonly<Record<string, string>>;
}

/** What a placement says instead of single readings where it was logged: a rolling or laser log. */
export interface LogReadings {
  /** Rows with a gap. */
  readonly count: number;
  /** Where the file is kept; absent where the log comes from a file at hand. */
  readonly kept?: KeptLog;
  /** Absent until the kept file has been read. */
  readonly series?: LogSeries;
}
