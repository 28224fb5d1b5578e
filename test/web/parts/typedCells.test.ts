import { expect, test } from 'vitest';
import { TypedCells } from '../../../web/parts/typedCells.svelte.ts';

test('what is typed in a cell stands there until it is emptied, and is kept half typed', () => {
  const cells = new TypedCells();
  cells.type('line 300', '1 3/');
  cells.type('line 600', '2');
  cells.type('line 600', '');
  expect(cells.text('line 300')).toBe('1 3/');
  expect(cells.text('line 600')).toBe('');
  expect(cells.halfTyped).toEqual([['line 300', '1 3/']]);
});

test('a refusal goes with the next key in its cell, and not with one elsewhere', () => {
  const cells = new TypedCells();
  cells.type('a', '-4');
  cells.refuse('a', 'Found “-4”.');
  cells.type('b', '1');
  expect(cells.refusal('a')).toBe('Found “-4”.');
  expect(cells.text('a')).toBe('-4');
  cells.type('a', '-');
  expect(cells.refusal('a')).toBe('');
});

test('what is typed now goes before what is put back', () => {
  const cells = new TypedCells();
  cells.type('a', 'now');
  cells.putBack([
    ['a', 'then'],
    ['b', 'then'],
  ]);
  expect([cells.text('a'), cells.text('b')]).toEqual(['now', 'then']);
});
