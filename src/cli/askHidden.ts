import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';

/** Asks at the terminal for something that is not shown while it is typed; absent where there is no terminal. */
export async function askHidden(question: string): Promise<string | undefined> {
  if (!process.stdin.isTTY) return undefined;
  process.stderr.write(question);
  // What readline would echo goes nowhere.
  const nowhere = new Writable({ write: (_chunk, _encoding, done) => done() });
  const lines = createInterface({ input: process.stdin, output: nowhere, terminal: true });
  try {
    return await new Promise((resolve) => {
      lines.once('line', resolve);
      lines.once('close', () => resolve(undefined));
    });
  } finally {
    lines.close();
    process.stderr.write('\n');
  }
}
