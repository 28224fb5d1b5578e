import type { CsvRead } from '../../src/survey/csv/readCsv.ts';
import type { LogRead } from '../../src/survey/log/readLog.ts';

/** A file gzipped, with what its entry says of it. */
export interface PackedFile {
  readonly data: Blob;
  readonly sha256: string;
}

/** What a CSV file says; of a long log the readings stay behind and the file itself is packed to be kept. */
export interface FileRead {
  readonly read: CsvRead | LogRead;
  readonly packed?: PackedFile;
}

/** A kept file, to be read again. */
export interface KeptFile {
  readonly entry: string;
  readonly data: Blob;
  readonly sha256: string;
  readonly given: Readonly<Record<string, string>>;
}

/** A file to be read. `given`: units by column. */
export interface LogJob {
  readonly file: Blob;
  readonly given: Readonly<Record<string, string>>;
}

export interface LogProgress {
  readonly rows: number;
  /** Of the file, 0 to 1. */
  readonly share: number;
}

export type LogAnswer =
  | { readonly is: 'progress'; readonly progress: LogProgress }
  | { readonly is: 'read'; readonly read: FileRead }
  | { readonly is: 'failed'; readonly reason: string };
