/** Letters that Unicode does not take apart, as they are written without their mark. */
const LETTERS: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  đ: 'd',
  ð: 'd',
  ł: 'l',
  ı: 'i',
  þ: 'th',
};

/** A text as it is searched: without accents (Unicode NFKD, marks dropped), case, and what is no letter or digit. */
export function foldText(text: string): string {
  return text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[ßæœøđðłıþ]/g, (letter) => LETTERS[letter] ?? letter)
    .replaceAll(/['’]/g, '')
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/** A test that a folded text holds every word of what is searched, whole or in part. A number may be typed with or
 *  without its spaces and dashes: `squeezed` is the text of numbers without any. */
export function searchFor(
  typed: string,
): (where: { readonly folded: string; readonly squeezed: string }) => boolean {
  const words = foldText(typed)
    .split(' ')
    .filter((word) => word !== '');
  const together = words.join('');
  return ({ folded, squeezed }) =>
    words.every((word) => folded.includes(word)) ||
    (together !== '' && squeezed.includes(together));
}
