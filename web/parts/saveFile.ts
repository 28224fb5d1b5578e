import { plainFileName } from '../../src/survey/photo/plainFileName.ts';

/** Gives the person a text as a file: through the browser's download. */
export function saveText(text: string, name: string, type = 'text/plain;charset=utf-8'): void {
  saveBlob(new Blob([text], { type }), name);
}

export function saveBlob(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = safeName(name);
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** Names that one file system takes for devices, whatever ending they have. */
const DEVICE = /^(con|prn|aux|nul|com\d|lpt\d)(?=\.|$)/i;

/** A name that every file system takes and that shows what it is: no slashes, no control or direction characters, no
 *  leading dots, cut to a length with its ending kept. */
export function safeName(name: string): string {
  const plain = plainFileName(name.slice(0, 10_000).replace(/[<>:"/\\|?*]/g, ' ')) ?? '';
  const safe = plain.replace(/^[. ]+|[. ]+$/g, '').replace(DEVICE, '$1 file');
  return safe === '' ? 'aftrun' : safe;
}
