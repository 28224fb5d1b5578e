/** A figure in mm with at most two decimals, none that are 0. */
export function tidyMm(mm: number): string {
  return String(Number(mm.toFixed(2)));
}
