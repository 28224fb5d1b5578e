/** What an error says of itself; whatever else was thrown, as text. */
export function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
