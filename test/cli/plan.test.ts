import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, vi } from 'vitest';

// Each case starts a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 60_000 });

const root = fileURLToPath(new URL('../../', import.meta.url));

function plan(...args: readonly string[]): Promise<{ status: number; out: string; err: string }> {
  const tsx = join(root, 'node_modules/tsx/dist/cli.mjs');
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [tsx, join(root, 'src/cli/main.ts'), 'plan', ...args],
      { cwd: root, encoding: 'utf8' },
      (error, out, err) => resolve({ status: error === null ? 0 : Number(error.code), out, err }),
    );
  });
}

describe('aftrun plan', () => {
  it('speaks inches to who states them, the last station’s unit being that of all', async () => {
    const { status, out } = await plan(
      ...['--stations', '0, 6, 12, 18, 24, 30, 36, 42, 48, 54, 60in'],
      ...['--tolerance', '1/16in', '--over', '60in', '--resolution', '1/64in'],
    );
    expect(status).toBe(0);
    expect(out).toContain('Tolerance 1/16 in over 60 in');
    expect(out).toMatch(/Nothing shorter than about 18 in/);
    expect(out).not.toMatch(/\d mm/);
  });

  it('gives the same as one object', async () => {
    const { status, out } = await plan('--tolerance', '1.5mm', '--resolution', '0.1mm', '--json');
    expect(status).toBe(0);
    expect(JSON.parse(out)).toBeTypeOf('object');
  });

  it.each([
    [['--stations', '0, wide, 300mm'], "--stations: found 'wide'"],
    [['--layings', '0'], "--layings: found '0'"],
    [['--tolerance', '1.5'], '--tolerance: found'],
  ] as const)('refuses %s with what was expected', async (args, words) => {
    const { status, err } = await plan(...args);
    expect(status).toBe(2);
    expect(err).toContain(words);
  });
});
