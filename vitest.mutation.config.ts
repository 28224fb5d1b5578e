import { configDefaults, defineConfig } from 'vitest/config';

/** What `npm run mutate` runs against each altered src/fit: its own unit tests. Those that count how often a
 *  verdict is right over many surveys are left out: they take seconds and hold what the others hold.
 *  For one file alone name its tests: MUTATION_TESTS=test/fit/pairs.test.ts npx stryker run -m src/fit/pairs.ts */
export default defineConfig({
  test: {
    environment: 'node',
    include: process.env['MUTATION_TESTS']?.split(',') ?? ['test/fit/**/*.test.ts'],
    exclude: [...configDefaults.exclude, 'test/fit/**/*Odds.test.ts'],
    setupFiles: ['test/setup.ts'],
    testTimeout: 60_000,
  },
});
