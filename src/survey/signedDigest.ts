import { canonical } from '../book/canonical.ts';
import type { Entry } from '../book/entry.ts';
import { Sha256 } from '../book/sha256.ts';

/** SHA-256, in hexadecimal, of what a signature covers: each entry in its canonical JSON (RFC 8785), in the order of
 *  ids, then each struck row of an import as `<id>#<row>`, in the order of their text; every one on a line of its
 *  own, ended by a line feed, UTF-8. Anybody can work it out again from an entry file. */
export function signedDigest(entries: readonly Entry[], rows: readonly string[]): string {
  const hash = new Sha256();
  const bytes = new TextEncoder();
  const ordered = [...entries].sort((a, b) => (a._id < b._id ? -1 : 1));
  for (const entry of ordered) hash.update(bytes.encode(`${canonical(entry)}\n`));
  for (const row of [...rows].sort()) hash.update(bytes.encode(`${row}\n`));
  return hash.hex();
}
