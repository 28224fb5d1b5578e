import { afterAll, afterEach } from 'vitest';
import { watchConsole } from './watchConsole.ts';

const watch = watchConsole(console);
afterEach(() => {
  watch.expectQuiet();
});
// What is said while a file loads, or by its own last hooks.
afterAll(() => {
  watch.expectQuiet();
});
