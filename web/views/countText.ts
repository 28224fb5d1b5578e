/** A count with a thin space between thousands, the same in every language: "250 000". */
export function countText(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, '\u202f');
}
