/** Longest name of a file that a record repeats, in UTF-16 code units. */
export const PLAIN_NAME_LIMIT = 120;

/** A file's name as it may be kept and shown: somebody else's text, so without control and direction characters, in
 *  one line, and cut to a length, its ending kept. Undefined where nothing is left. It names no file here. */
export function plainFileName(name: string): string | undefined {
  const plain = name
    .slice(0, 10_000)
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  if (plain === '') return undefined;
  if (plain.length <= PLAIN_NAME_LIMIT) return plain;
  const ending = /\.[A-Za-z0-9]{1,8}$/.exec(plain)?.[0] ?? '';
  // Cutting may leave half of a character that takes two code units.
  const start = plain.slice(0, PLAIN_NAME_LIMIT - ending.length - 1).replace(/\p{Cs}$/u, '');
  return `${start}…${ending}`;
}
