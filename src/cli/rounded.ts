/** A figure to so many decimals, never −0. */
export function rounded(value: number, decimals: number): number {
  const found = Number(value.toFixed(decimals));
  return found === 0 ? 0 : found;
}
