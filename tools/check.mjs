// Everything that a change must pass, in order; stops at the first failure.
// The tests come last, so that their closing line ("N passed, N failed, N skipped") is the last of all.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const steps = [
  ['types', 'tsc --noEmit'],
  ['components', 'svelte-check --fail-on-warnings --tsconfig ./tsconfig.json --output human'],
  ['lint', 'eslint . --max-warnings 0'],
  ['format', 'prettier --check --log-level warn .'],
  ['build', 'vite build --config ../vite.config.ts --logLevel warn', 'web'],
  ['first load', 'size-limit'],
  ['tests', 'vitest run'],
];

for (const [name, line, folder] of steps) {
  process.stdout.write(`== ${name}: ${line}\n`);
  const [program, ...given] = line.split(' ');
  const { status, error } = spawnSync(join(root, 'node_modules', '.bin', program), given, {
    cwd: join(root, folder ?? '.'),
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (status !== 0) {
    process.stderr.write(`== stopped at ${name}${error ? `: ${error.message}` : ''}\n`);
    process.exit(status ?? 1);
  }
}
