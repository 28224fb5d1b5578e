/** What a spreadsheet may take for the beginning of a formula, quotation marks before it left aside; the wide forms too,
 *  which some take for the narrow ones. From memory of common advice on exports; no standard says it. */
const START = `["']*[=+\\-@\\uff1d\\uff0b\\uff0d\\uff20]`;
const runs = new RegExp(`^${START}`);
const guarded = new RegExp(`^'${START}`);
/** A cell that begins with one of these is trimmed by some before they look. */
const hidden = /^'*[\t\r\n]/;
const hiddenGuarded = /^'+[\t\r\n]/;
/** Where a spreadsheet of another country, or one that minds no quotation marks, begins a new cell. A comma is not among
 *  them: it separates the cells of what is written here, and those are quoted. */
const parts = /([;\t\r\n])/;
const partRuns = new RegExp(`[,;\\t]${START}`);

/** Guards a text cell that a spreadsheet would run as a formula: an apostrophe goes before it, and before each part of
 *  it that could become a cell of its own. Every text that is written into a CSV file comes through here; numbers do
 *  not, so that a negative one stays one. Common practice for exports (it is not part of RFC 4180). `readTextCell`
 *  undoes it. */
export function writeTextCell(text: string): string {
  const safe = text
    .split(parts)
    .map((part) => (runs.test(part) ? `'${part}` : part))
    .join('');
  return hidden.test(safe) ? `'${safe}` : safe;
}

/** The text of a cell: trimmed, or, where `writeTextCell` guarded it, exactly what was guarded. */
export function readTextCell(cell: string): string {
  if (!cell.includes("'")) return cell.trim();
  const text = (hiddenGuarded.test(cell) ? cell.slice(1) : cell)
    .split(parts)
    .map((part) => (guarded.test(part) ? part.slice(1) : part))
    .join('');
  return text === cell ? cell.trim() : text;
}

/** A `# key: value` line, in quotation marks where a spreadsheet would else find a formula behind a comma or semicolon
 *  of it. `splitFile` takes them off. */
export function writeHashLine(line: string): string {
  return partRuns.test(line) ? `"${line.replaceAll('"', '""')}"` : line;
}
