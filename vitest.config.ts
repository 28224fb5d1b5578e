import { svelte } from '@sveltejs/vite-plugin-svelte';
import { configDefaults, defineConfig } from 'vitest/config';
import { PlainReporter } from './tools/plain-reporter.ts';

export default defineConfig({
  test: {
    passWithNoTests: true,
    reporters: ['default', new PlainReporter()],
    projects: [
      {
        plugins: [svelte()],
        test: {
          name: 'unit',
          environment: 'node',
          include: ['test/**/*.test.ts'],
          exclude: [...configDefaults.exclude, 'test/browser/**'],
          setupFiles: ['test/setup.ts'],
          // No test is timed: on a busy machine the slowest take as long as they need.
          testTimeout: 60_000,
          expect: { poll: { timeout: 30_000 } },
          sequence: { groupOrder: 0 },
        },
      },
      {
        // Runs in node, after the others, one file at a time: drives a Chromium against the built app.
        test: {
          name: 'browser',
          environment: 'node',
          include: ['test/browser/**/*.test.ts'],
          setupFiles: ['test/setup.ts'],
          globalSetup: ['test/browser/build.ts'],
          // A limit is there to stop what hangs: whatever comes late on a busy machine comes in time for the test.
          testTimeout: 180_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 60_000 } },
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
