import { expect, test } from 'vitest';
import { keepHalfTyped, takeHalfTyped } from '../../../web/parts/halfTyped.ts';

function shelf(kept = new Map<string, string>()) {
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => void kept.set(key, text),
    removeItem: (key: string) => void kept.delete(key),
  };
}

test('what stands half typed comes back once, to its own survey', () => {
  const here = shelf();
  keepHalfTyped('one', [['line 300', '1 3/']], here);
  expect(takeHalfTyped('two', here)).toEqual([]);
  expect(takeHalfTyped('one', here)).toEqual([['line 300', '1 3/']]);
  expect(takeHalfTyped('one', here)).toEqual([]);
});

test('what was finished meanwhile does not come back', () => {
  const here = shelf();
  keepHalfTyped('one', [['line 300', '1']], here);
  keepHalfTyped('one', [], here);
  expect(takeHalfTyped('one', here)).toEqual([]);
});

test.each(['{', '7', '{"a":1}', '[["a"],["a",1],[1,"b"]]'])('nothing is made of %s', (text) => {
  expect(takeHalfTyped('one', shelf(new Map([['aftrun-typed-one', text]])))).toEqual([]);
});

test('a browser that keeps nothing is no failure', () => {
  const refuse = (): never => {
    throw new DOMException('no', 'SecurityError');
  };
  const blocked = { getItem: refuse, setItem: refuse, removeItem: refuse };
  keepHalfTyped('one', [['line 300', '1']], blocked);
  expect(takeHalfTyped('one', blocked)).toEqual([]);
});
