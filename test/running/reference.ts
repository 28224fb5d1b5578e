import { readFileSync } from 'node:fs';

const at = (name: string) => new URL(`../../fixtures/reference/${name}`, import.meta.url);

/** A file of reference values, by its path in fixtures/reference. */
export function reference(name: string): unknown {
  return JSON.parse(readFileSync(at(name), 'utf8'));
}

/** Rows of a plain CSV of reference values, by column; quoted cells keep their commas. */
export function referenceRows(name: string): readonly Readonly<Record<string, string>>[] {
  const [head, ...rows] = readFileSync(at(name), 'utf8')
    .trim()
    .split('\n')
    .map((line) => [...line.matchAll(/("([^"]*)"|[^,]*)(,|$)/g)].map((m) => m[2] ?? m[1]));
  return rows.map((row) => Object.fromEntries(head.map((name, i) => [name, row[i]])));
}
