import { realpathSync, writeFileSync } from 'node:fs';
import { complain, reasonOf } from './surveyFile.ts';

/** Writes what a command made to the file that the person named; where that is one of those it was made from, it is
 *  left as it is. False where it could not be written, with the reason said. */
export function writeOut(out: string, text: string, madeFrom: readonly string[]): boolean {
  if (madeFrom.some((file) => same(file, out))) {
    complain(`${out}: is read from, expected another file to write to; it was left as it is`);
    return false;
  }
  try {
    writeFileSync(out, text);
    return true;
  } catch (error) {
    complain(`${out}: ${reasonOf(error)}`);
    return false;
  }
}

function same(one: string, other: string): boolean {
  try {
    return realpathSync(one) === realpathSync(other);
  } catch {
    return false;
  }
}
