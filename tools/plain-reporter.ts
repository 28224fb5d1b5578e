import type { Reporter, TestModule } from 'vitest/node';

/** Prints `N passed, N failed, N skipped` alone on the last line: what a program counts tests by.
 *  A file that could not be run, and an error outside any test, count as failed. */
export class PlainReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    process.stdout.write(`${closingLine(modules, errors)}\n`);
  }
}

export function closingLine(modules: readonly TestModule[], errors: readonly unknown[]): string {
  const count = { passed: 0, failed: errors.length, skipped: 0 };
  for (const module of modules) {
    let failedHere = 0;
    for (const test of module.children.allTests()) {
      const { state } = test.result();
      if (state === 'passed') count.passed++;
      else if (state === 'failed') failedHere++;
      else count.skipped++;
    }
    // A hook or the file itself may fail without any test of it failing.
    if (failedHere === 0 && module.state() === 'failed') failedHere = 1;
    count.failed += failedHere;
  }
  return `${String(count.passed)} passed, ${String(count.failed)} failed, ${String(count.skipped)} skipped`;
}
