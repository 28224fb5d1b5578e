import { expect, test, vi } from 'vitest';
import { watchConsole } from '../watchConsole.ts';

test('a warning or an error on the console is heard, passed on, and told once', () => {
  const warn = vi.fn();
  const speaker = { warn, error: vi.fn() };
  const watch = watchConsole(speaker);
  watch.expectQuiet();
  speaker.warn('low', 3);
  expect(warn).toHaveBeenCalledWith('low', 3);
  expect(() => {
    watch.expectQuiet();
  }).toThrow('console.warn: low 3');
  watch.expectQuiet();
  speaker.error(new Error('lost'));
  expect(() => {
    watch.expectQuiet();
  }).toThrow('console.error: Error: lost');
});

test.fails('a test that warns on the console fails', () => {
  console.warn('This line belongs to a test: it is there to fail it.');
});

test('a test that expects a warning hears it with a spy of its own', () => {
  const spy = vi.spyOn(console, 'warn').mockReturnValue(undefined);
  console.warn('expected');
  expect(spy).toHaveBeenCalledOnce();
  spy.mockRestore();
});
