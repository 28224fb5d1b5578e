import type { Place } from '../store/backup/scanFile.ts';
import { saveBlob } from './saveFile.ts';

/** Gives the person the lines that could not be read, as they stand in their file. */
export function saveLinesAside(places: readonly Place[], of: string): void {
  const lines = places.flatMap(({ file, from, to }) => [file.slice(from, to), '\n']);
  saveBlob(new Blob(lines, { type: 'text/plain' }), `${of} lines set aside.txt`);
}
