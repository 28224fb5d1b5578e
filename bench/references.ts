import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface Reference {
  readonly name: string;
  /** ms; or why it was not run. */
  readonly found:
    { readonly times: readonly [number, number, number]; readonly knots: number } | string;
}

/** The same readings smoothed by scipy and by R, where those are installed, timed inside their own processes. */
export function references(x: Float64Array, y: Float64Array, runs: number): readonly Reference[] {
  const folder = mkdtempSync(join(tmpdir(), 'aftrun-bench-'));
  const file = join(folder, 'readings.csv');
  writeFileSync(file, Array.from(x, (at, i) => `${at},${y[i]}`).join('\n'));
  const here = (name: string) => fileURLToPath(new URL(name, import.meta.url));
  const run = (program: string, args: readonly string[]): Reference['found'] => {
    const { status, stdout, error } = spawnSync(program, [...args, file, String(runs)], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    if (error !== undefined || status !== 0) return 'skipped: not installed here';
    const [median, least, most, knots] = stdout.trim().split(/\s+/).map(Number);
    return { times: [median, least, most], knots };
  };
  try {
    return [
      { name: "scipy's make_smoothing_spline", found: run('python3', [here('./smoothing.py')]) },
      { name: "R's smooth.spline", found: run('Rscript', [here('./smoothing.R')]) },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
