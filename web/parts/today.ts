/** Today where this device is, as 2026-03-14. */
export function today(): string {
  return new Date().toLocaleDateString('sv-SE');
}
