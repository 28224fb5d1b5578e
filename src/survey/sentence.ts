/** Names as a sentence has them: "P18in, P30in and S6in". */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** With a capital at its beginning. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
