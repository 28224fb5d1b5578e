/** Where a backup can go to: a file that the person names, the browser's downloads, another app. */
export type BackupWay = 'file' | 'download' | 'share';

/** What of the browser's file picker is used; not every browser has it. */
interface Picker {
  showSaveFilePicker(options: {
    readonly suggestedName: string;
    readonly types: readonly { description: string; accept: Record<string, readonly string[]> }[];
  }): Promise<ChosenFile>;
}
export interface ChosenFile {
  createWritable(): Promise<{
    write(text: string): Promise<void>;
    close(): Promise<void>;
    abort(): Promise<void>;
  }>;
  getFile(): Promise<File>;
}

const TYPE = 'text/plain';

/** The ways that this browser has. */
export function backupWays(): readonly BackupWay[] {
  const ways: BackupWay[] = [];
  if ('showSaveFilePicker' in window) ways.push('file');
  ways.push('download');
  if (sharesFiles()) ways.push('share');
  return ways;
}

/** Asks for a file; absent where the person chose none. */
export async function chooseFile(suggestedName: string): Promise<ChosenFile | undefined> {
  const picker = window as unknown as Picker;
  const types = [{ description: 'aftrun entry file', accept: { [TYPE]: ['.txt'] } }];
  try {
    return await picker.showSaveFilePicker({ suggestedName, types });
  } catch (error) {
    if (isAbort(error)) return undefined;
    throw error;
  }
}

export function textFile(pieces: readonly Blob[], name: string): File {
  return new File([...pieces], name, { type: TYPE });
}

/** Hands a file to the device's share sheet: `shared`, `left` by the person, or `too late`, where so much time has
 *  passed since the tap that the browser wants another. */
export async function shareFile(file: File): Promise<'shared' | 'left' | 'too late'> {
  try {
    await navigator.share({ files: [file], title: file.name });
    return 'shared';
  } catch (error) {
    if (isAbort(error)) return 'left';
    if (error instanceof DOMException && error.name === 'NotAllowedError') return 'too late';
    throw error;
  }
}

function sharesFiles(): boolean {
  try {
    const probe = new File(['aftrun'], 'aftrun.txt', { type: TYPE });
    return 'canShare' in navigator && navigator.canShare({ files: [probe] });
  } catch {
    return false;
  }
}

function isAbort(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'AbortError';
}
