import { Sha256 } from '../../book/sha256.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import { readPictureHead } from './pictureHead.ts';
import { tooLarge } from './pictureSize.ts';

/** What is wrong with a kept picture, held against what its entry says of it; undefined where nothing is. It is asked
 *  before a picture is shown, since an entry file may come from anywhere. */
export function keptPictureFault(
  bytes: Uint8Array,
  kept: BodyOf<'photo'>['kept'],
): { readonly found: string; readonly expected: string } | undefined {
  if (bytes.length !== kept.bytes) {
    return { found: `${bytes.length} bytes`, expected: `${kept.bytes}, as its entry says` };
  }
  const hash = new Sha256();
  hash.update(bytes);
  const sha256 = hash.hex();
  if (sha256 !== kept.sha256) {
    return { found: `a file whose SHA-256 is ${sha256}`, expected: kept.sha256 };
  }
  const head = readPictureHead(bytes);
  if (!head.ok) return head;
  const large = tooLarge(head);
  if (large !== undefined) return large;
  const [found, expected] = [head, kept].map(
    ({ type, width, height }) => `${type} of ${width} × ${height} pixels`,
  );
  return found === expected ? undefined : { found, expected: `${expected}, as its entry says` };
}
