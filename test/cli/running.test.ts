import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, vi } from 'vitest';

// Each case starts a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 60_000 });

const root = fileURLToPath(new URL('../../', import.meta.url));
const SAMPLE = 'fixtures/samples/tern-reach.json';

function running(
  ...args: readonly string[]
): Promise<{ status: number; out: string; err: string }> {
  const tsx = join(root, 'node_modules/tsx/dist/cli.mjs');
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [tsx, join(root, 'src/cli/main.ts'), 'running', ...args],
      { cwd: root, encoding: 'utf8' },
      (error, out, err) => resolve({ status: error === null ? 0 : Number(error.code), out, err }),
    );
  });
}

describe('aftrun running', () => {
  it('prints loads, trim by case and the larger lever, figure for figure in what is known', async () => {
    const { status, out } = await running(SAMPLE);
    expect(status).toBe(0);
    expect(out).toMatch(/As now +5510 lb ± \d+ lb +72\.8 in/);
    expect(out).toMatch(/As proposed +5710 lb ± \d+ lb +77\.2 in/);
    expect(out).toContain('Weight is the larger lever for this boat');
    expect(out).toContain('kill-cord on');
  });

  it('gives the worked example of Savitsky (1964), table 1, within what the method can tell', async () => {
    const { status, out } = await running('fixtures/samples/savitsky-table-1.json');
    expect(status).toBe(0);
    // Printed there: trim 2.3 degrees, sqrt(CL/2) 0.303, limit 4.5 degrees: stable; as savitsky1964.json tells.
    expect(out).toMatch(/At 40 kn, as now: stable; trim 2\.[23]°/);
    // 9,095 lbf and 1,115 hp there.
    expect(out).toMatch(/Drag of the hull +(8900|9\d00) lbf/);
    expect(out).toMatch(/Power for that +1100 hp/);
  });

  it('gives the same as one object', async () => {
    const { status, out } = await running(SAMPLE, '--json');
    expect(status).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      lever: { lever: 'weight', sure: 'sure' },
      loads: { 'as designed': { ok: true } },
    });
  });

  it.each([
    [[], 2, 'a file is expected'],
    [[SAMPLE, '--wide'], 2, '--wide'],
    [['no-such.json'], 1, 'no such file'],
    [['fixtures/samples/inches-wide.csv'], 1, 'no JSON'],
    [['package.json'], 1, 'beam: found nothing'],
  ] as const)('%s: status %i', async (args, status, words) => {
    const found = await running(...args);
    expect(found.err).toContain(words);
    expect(found.status).toBe(status);
  });
});
