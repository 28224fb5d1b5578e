import type { CsvRead } from '../../src/survey/csv/readCsv.ts';
import type { HandedOver } from '../../src/survey/log/handOver.ts';
import type { LogRead } from '../../src/survey/log/readLog.ts';
import type { Survey } from '../../src/survey/survey.ts';

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

export type LogJob =
  | { readonly do: 'read'; readonly file: Blob; readonly given: Readonly<Record<string, string>> }
  | { readonly do: 'assess'; readonly survey: Survey; readonly files: readonly KeptFile[] };

export interface LogProgress {
  readonly rows: number;
  /** Of the file, 0 to 1. */
  readonly share: number;
}

export type LogAnswer =
  | { readonly is: 'progress'; readonly progress: LogProgress }
  | { readonly is: 'read'; readonly read: FileRead }
  | { readonly is: 'assessed'; readonly assessment: HandedOver }
  | { readonly is: 'failed'; readonly reason: string };
