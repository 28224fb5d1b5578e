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
    // Printed there: trim 2.3 degrees, limit 4.5 degrees: stable; as savitsky1964.json tells.
    expect(out).toMatch(/At 40 kn, as now: stable; trim 2\.[23]°/);
    // 9,095 lbf and 1,115 hp there.
    expect(out).toMatch(/Drag of the hull +(8900|9\d00) lbf/);
    expect(out).toMatch(/Power for that +1100 hp/);
  });

  // Savitsky (1964), table 1: 2.3 degrees, 9,095 lbf, 1,115 hp, √(CL/2) 0.186, draft 2.24 ft. Wetted lengths are printed for a
  // misprinted lambda of 3.29; 3.475, its own interpolation, gives 58.5 and 38.7 ft.
  it('gives every figure of that example as one object, in SI', async () => {
    const { out } = await running('fixtures/samples/savitsky-table-1.json', '--json');
    const answer = JSON.parse(out) as {
      cases: {
        curve: {
          stability: string;
          trim: number;
          lambda: number;
          drag: number;
          power: number;
          loading: number;
          wetted: Record<'keel' | 'chine' | 'draft', number>;
        }[];
      }[];
    };
    const [runs] = answer.cases[0].curve;
    expect(runs.stability).toBe('stable');
    expect(Math.abs(runs.trim - 2.3)).toBeLessThan(0.1);
    expect(Math.abs(runs.lambda - 3.475)).toBeLessThan(0.06);
    expect(Math.abs(runs.drag / (9095 * 4.4482216) - 1)).toBeLessThan(0.03);
    expect(Math.abs(runs.power / (1115 * 745.69987) - 1)).toBeLessThan(0.03);
    expect(Math.abs(runs.loading - 0.186)).toBeLessThan(0.001);
    expect(Math.abs(runs.wetted.draft / 304.8 - 2.24)).toBeLessThan(0.1);
    expect(Math.abs(runs.wetted.keel / 304.8 / 58.5 - 1)).toBeLessThan(0.02);
    expect(Math.abs(runs.wetted.chine / 304.8 / 38.7 - 1)).toBeLessThan(0.02);
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
