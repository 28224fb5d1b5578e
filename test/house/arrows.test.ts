import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { ambientUses } from './ambient.ts';
import { brokenArrows, roomOf } from './arrows.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const sources = ['src', 'web'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|svelte)$/.test(name))
    .map((name) => `${folder}/${name.split(sep).join('/')}`),
);
const textOf = (path: string): string => readFileSync(join(root, path), 'utf8');
const knowsNothingAround = (path: string): boolean =>
  (path.startsWith('src/') && roomOf(path) !== 'src/cli') || roomOf(path) === 'web/views';

describe('the house', () => {
  test('has sources to hold', () => {
    expect(sources).toContain('src/survey/survey.ts');
    expect(sources).toContain('web/App.svelte');
  });

  test('keeps its arrows: every file imports only what its room may know', () => {
    expect(sources.flatMap((path) => brokenArrows(path, textOf(path)))).toEqual([]);
  }, 60_000);

  test('keeps DOM, storage, clock, locale and randomness out of src, its cli aside, and of views', () => {
    const found = sources
      .filter(knowsNothingAround)
      .flatMap((path) => ambientUses(path, textOf(path)));
    expect(found).toEqual([]);
  }, 60_000);
});

describe('the guard of the arrows trips', () => {
  const offences: readonly (readonly [where: string, text: string, says: string])[] = [
    ['src/fit/a.ts', `import { b } from '../book/b.ts';`, 'src/fit may not know src/book'],
    ['src/fit/a.ts', `import { b } from '../survey/b.ts';`, 'src/fit may not know src/survey'],
    ['src/fit/a.ts', `import { scaleLinear } from 'd3';`, 'src/fit may not know the package d3'],
    ['src/fit/a.ts', `import * as v from 'valibot';`, 'src/fit may not know the package valibot'],
    ['src/book/a.ts', `export { b } from '../survey/b.ts';`, 'src/book may not know src/survey'],
    ['src/book/a.ts', `import { b } from '../fit/b.ts';`, 'src/book may not know src/fit'],
    ['src/book/a.ts', `import fs from 'node:fs';`, 'src/book may not know the package node:fs'],
    ['src/book/a.ts', `import fs from 'fs';`, 'src/book may not know the package fs'],
    ['src/survey/a.ts', `import 'd3-array';`, 'src/survey may not know the package d3-array'],
    ['src/survey/a.ts', `import { tick } from 'svelte';`, 'may not know the package svelte'],
    ['src/survey/a.ts', `await import('../fairing/b.ts');`, 'may not know src/fairing'],
    ['src/survey/csv/a.ts', `import '../../cli/b.ts';`, 'src/survey may not know src/cli'],
    ['src/fairing/a.ts', `import '../seasons/b.ts';`, 'src/fairing may not know src/seasons'],
    ['src/seasons/a.ts', `import '../running/b.ts';`, 'src/seasons may not know src/running'],
    ['src/running/a.ts', `import '../../web/views/b.ts';`, 'src/running may not know web/views'],
    ['src/cli/a.ts', `import '../../web/store/b.ts';`, 'src/cli may not know web/store'],
    ['src/cli/a.ts', `import '../../web/parts/B.svelte';`, 'src/cli may not know web/parts'],
    ['web/views/a.ts', `import { tick } from 'svelte';`, 'may not know the package svelte'],
    ['web/views/a.ts', `import B from '../parts/B.svelte';`, 'web/views may not know web/parts'],
    ['web/views/a.ts', `import '../../src/cli/main.ts';`, 'web/views may not know src/cli'],
    ['web/parts/a.ts', `import '../../src/fit/line.ts';`, 'web/parts may not know src/fit'],
    ['web/screens/a.ts', `import 'd3';`, 'web/screens may not know the package d3'],
    ['web/store/a.ts', `import 'simple-statistics';`, 'the package simple-statistics'],
    ['web/store/a.ts', `import '../screens/B.svelte';`, 'web/store may not know web/screens'],
    ['web/main.ts', `import '../test/setup.ts';`, 'web may not know test/setup.ts'],
    ['web/other/a.ts', ``, 'stands in no room'],
    ['src/other/a.ts', ``, 'stands in no room'],
    ['src/fit/a.ts', `import { b } from './b';`, 'lacks its extension'],
    ['src/fit/a.ts', `const b = await import(place);`, 'only a run can tell'],
    ['web/store/a.ts', `import.meta.glob('./*.ts');`, 'only a run can tell'],
    ['src/fit/a.ts', `type B = import('../book/b.ts').B;`, 'may not know src/book'],
    ['src/fit/a.ts', `import type { B } from '../book/b.ts';`, 'may not know src/book'],
    ['web/views/a.ts', `new URL('../store/b.ts', import.meta.url);`, 'may not know web/store'],
    [
      'web/sheets/A.svelte',
      `<p>x</p>\n<script lang="ts">\n  import { b } from '../store/b.ts';\n</script>`,
      'web/sheets/A.svelte:3: web/sheets may not know web/store',
    ],
    [
      'web/sheets/A.svelte',
      `<script module lang="ts">import 'd3';</script>`,
      'web/sheets may not know the package d3',
    ],
    [
      'web/sheets/A.svelte',
      `<p>x</p>\n{#await import('../parts/B.svelte') then b}<b.default />{/await}`,
      'web/sheets/A.svelte:2: web/sheets may not know web/parts',
    ],
  ];
  test.each(offences)('in %s on %s', (where, text, says) => {
    const broken = brokenArrows(where, text);
    expect(broken).toHaveLength(1);
    expect(broken[0]).toContain(says);
  });

  test('on no import that the house allows', () => {
    const allowed: readonly (readonly [string, string])[] = [
      [
        'src/survey/csv/a.ts',
        `import '../../fit/b.ts'; import '../c.ts'; import Papa from 'papaparse';`,
      ],
      ['src/running/a.ts', `import '../survey/b.ts';`],
      ['src/cli/main.ts', `import 'node:fs'; import '../../web/sheets/B.svelte';`],
      ['web/views/a.ts', `import { scaleLinear } from 'd3'; import '../../src/fairing/b.ts';`],
      ['web/store/a.ts', `new Worker(new URL('./b.ts', import.meta.url), { type: 'module' });`],
      ['web/screens/A.svelte', `<script lang="ts">import '../store/b.svelte.ts';</script>`],
      ['web/App.svelte', `<script lang="ts">import './app.css';</script>`],
    ];
    expect(allowed.flatMap(([where, text]) => brokenArrows(where, text))).toEqual([]);
  });
});

describe('the guard of what is around trips', () => {
  const offences: readonly (readonly [text: string, says: string])[] = [
    ['const t = Date.now();', 'Date.now'],
    ['const { now } = Date;', 'Date.now'],
    ['const t = new Date();', 'the clock'],
    ['const t = new Date;', 'the clock'],
    ['const t = Date();', 'the clock'],
    ['const r = Math.random();', 'Math.random'],
    ['const id = crypto.randomUUID();', 'crypto'],
    ["localStorage.setItem('a', 'b');", 'localStorage'],
    ["document.querySelector('p');", 'document'],
    ['const w = window.innerWidth;', 'window'],
    ['const g = { globalThis };', 'globalThis'],
    ['const text = (1.5).toLocaleString();', 'toLocaleString'],
    ['names.sort((a, b) => a.localeCompare(b));', 'localeCompare'],
    ["const f = new Intl.NumberFormat('en');", 'Intl'],
    ['const h = when.getHours();', 'getHours'],
    ["const e = process.env['HOME'];", 'process'],
    ["await fetch('./a');", 'fetch'],
  ];
  test.each(offences)('on %s', (text, says) => {
    expect(ambientUses('src/fit/a.ts', `\n${text}`)).toEqual([`src/fit/a.ts:2: ${says}`]);
  });

  test('on no name that the file gives itself, nor on a time that is stated', () => {
    const text = `
      interface Shape { readonly window: number; document?: string }
      const told = new Date('2020-01-01T00:00:00Z').toISOString();
      const window = 3; const wide = window * 2;
      const shape = { document: told, self: 1 }; shape.self;
      function of(process: number): number { return process + Math.abs(wide); }`;
    expect(ambientUses('src/fit/a.ts', text)).toEqual([]);
  });
});
