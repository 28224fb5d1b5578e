import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Before the browser tests: dist stands for the sources as they are now.
 *  In a process of its own, because vitest's NODE_ENV would make it a build for tests. */
export default function build(): void {
  const program = fileURLToPath(new URL('../../tools/build.mjs', import.meta.url));
  const environment = { ...process.env };
  delete environment['NODE_ENV'];
  const { status } = spawnSync(process.execPath, [program, '--if-stale'], {
    env: environment,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (status !== 0) throw new Error('the app could not be built');
}
