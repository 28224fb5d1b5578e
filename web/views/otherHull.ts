/** What to say before a file is kept that names another hull than the one it would go to; absent where it names none, or
 *  this one. Case, spaces and what stands in brackets do not count: "Quiet Ebb (invented)" is "Quiet Ebb". */
export function otherHullWords(
  inFile: string | undefined,
  hull: string | undefined,
): string | undefined {
  const named = inFile?.trim();
  if (named === undefined || named === '' || plain(named) === plain(hull ?? '')) return undefined;
  const here = hull === undefined ? 'this hull, which has no name yet' : `“${hull}”`;
  return `The file says that it is of “${named}”, and it would be kept with ${here}. Keep it only if they are one boat.`;
}

function plain(name: string): string {
  return name
    .replaceAll(/\([^()]*\)/g, ' ')
    .replaceAll(/\s+/g, ' ')
    .trim()
    .toLowerCase();
}
