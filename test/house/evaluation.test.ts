import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

/** Ways in which a text becomes code or markup. Nothing here needs one; the policy of the page forbids most besides. */
const WAYS: Readonly<Record<string, RegExp>> = {
  'text run as code': /\beval\s*\(|\bnew\s+Function\b|\bFunction\s*\(|\bimport\(\s*`|javascript:/,
  'text run later': /\bset(?:Timeout|Interval)\s*\(\s*['"`]/,
  'text put in as markup':
    /\{@html\b|\b(?:inner|outer)HTML\b|\binsertAdjacentHTML\b|\bdocument\s*\.\s*write|\bDOMParser\b|\bcreateContextualFragment\b|\bsrcdoc\b|\bsetHTML/,
};

function found(text: string): readonly string[] {
  return Object.entries(WAYS).flatMap(([way, form]) => (form.test(text) ? [way] : []));
}

const root = fileURLToPath(new URL('../../', import.meta.url));
const sources = ['src', 'web'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|js|mjs|svelte|html)$/.test(name))
    .map((name) => `${folder}/${name.split(sep).join('/')}`),
);

describe('nothing that was entered or read is run', () => {
  test('no source makes code or markup of text', () => {
    expect(sources).toContain('web/index.html');
    const uses = sources.flatMap((path) =>
      found(readFileSync(join(root, path), 'utf8')).map((way) => `${path}: ${way}`),
    );
    expect(uses).toEqual([]);
  });

  test.each([
    ['eval(text)', 'text run as code'],
    ['const run = new Function(text);', 'text run as code'],
    ['await import(`./${name}.ts`)', 'text run as code'],
    [`setTimeout('go()', 5)`, 'text run later'],
    ['<p>{@html note}</p>', 'text put in as markup'],
    ['cell.innerHTML = note;', 'text put in as markup'],
    ['new DOMParser()', 'text put in as markup'],
  ])('the guard trips on %s', (text, way) => {
    expect(found(text)).toEqual([way]);
  });

  test('the guard lets plain words pass', () => {
    expect(found('the retrieval() of a note; type F = (a: string) => void')).toEqual([]);
  });
});
