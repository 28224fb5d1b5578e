// Serves the built app at one fixed address: what a browser stores belongs to the address, port included.
import { createServer } from 'node:net';
import { join } from 'node:path';
import { preview } from 'vite';
import { buildApp, isStale, root } from './build.mjs';

const host = '127.0.0.1';
const port = 4684;

if (await isTaken()) {
  process.stderr.write(
    `Port ${port} is taken: perhaps aftrun is running already, at http://localhost:${port}/. ` +
      'The address is fixed, because a browser keeps the record by address. Stop what uses the port, then start again.\n',
  );
  process.exit(1);
}
if (isStale()) {
  process.stdout.write('Building ...\n');
  try {
    await buildApp();
  } catch (error) {
    process.stderr.write(
      `The app could not be built.\n${error instanceof Error ? error.message : error}\n`,
    );
    process.exit(1);
  }
}
await preview({
  root: join(root, 'web'),
  configFile: join(root, 'vite.config.ts'),
  logLevel: 'warn',
  preview: { host, port, strictPort: true },
});
process.stdout.write(`aftrun is at http://localhost:${port}/ (Ctrl+C stops it)\n`);

function isTaken() {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(true));
    probe.listen(port, host, () => probe.close(() => resolve(false)));
  });
}
