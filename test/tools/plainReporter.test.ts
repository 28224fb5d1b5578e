import { expect, test } from 'vitest';
import type { TestModule } from 'vitest/node';
import { closingLine } from '../../tools/plain-reporter.ts';

function moduleOf(state: string, ...tests: string[]): TestModule {
  const results = tests.map((result) => ({ result: () => ({ state: result }) }));
  return { state: () => state, children: { allTests: () => results } } as unknown as TestModule;
}

test('the closing line counts tests over all files', () => {
  const modules = [
    moduleOf('failed', 'passed', 'failed', 'failed'),
    moduleOf('passed', 'passed', 'skipped', 'pending'),
  ];
  expect(closingLine(modules, [])).toBe('2 passed, 2 failed, 2 skipped');
});

test('a file that could not be run and an error outside any test count as failed', () => {
  const modules = [moduleOf('failed'), moduleOf('failed', 'passed')];
  expect(closingLine(modules, [new Error('lost')])).toBe('1 passed, 3 failed, 0 skipped');
});
