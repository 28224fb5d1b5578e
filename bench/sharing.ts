// Three tablets, a server that comes and goes, 1,000 seeded operations each, and how fast entries travel: the test of
// sharing at its full size, since what shares has runes in it, which only the test runner compiles.
// npm run trial:sharing [-- 300]
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const [operations = '1000'] = process.argv.slice(2);
const { status } = spawnSync(
  fileURLToPath(new URL('../node_modules/.bin/vitest', import.meta.url)),
  ['run', '--project', 'unit', 'test/server/converge.test.ts'],
  {
    stdio: 'inherit',
    env: { ...process.env, AFTRUN_TRIAL_OPERATIONS: operations },
    shell: process.platform === 'win32',
  },
);
process.exitCode = status ?? 1;
