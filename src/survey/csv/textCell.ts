const runs = /^'*[=+\-@\t\r]/;
const guarded = /^'+[=+\-@\t\r]/;

/** Guards a text cell that a spreadsheet would run as a formula: an apostrophe goes before it.
 *  Common practice for exports (it is not part of RFC 4180). `readTextCell` undoes it. */
export function writeTextCell(text: string): string {
  return runs.test(text) ? `'${text}` : text;
}

/** The text of a cell: trimmed, or, where `writeTextCell` guarded it, exactly what was guarded. */
export function readTextCell(cell: string): string {
  return guarded.test(cell) ? cell.slice(1) : cell.trim();
}
