import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { chromiumPath } from '../../tools/chromium.mjs';

let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ready-'));
  mkdirSync(join(folder, 'tools'));
  mkdirSync(join(folder, 'node_modules', 'present'), { recursive: true });
  for (const name of ['ready.mjs', 'chromium.mjs']) {
    const from = fileURLToPath(new URL(`../../tools/${name}`, import.meta.url));
    copyFileSync(from, join(folder, 'tools', name));
  }
  // Stands in for npm: says how it was called, and installs what was missing.
  writeFileSync(
    join(folder, 'npm-cli.js'),
    `console.log('npm', process.argv.slice(2).join(' '));
     require('fs').mkdirSync('node_modules/missing', { recursive: true });
     require('fs').writeFileSync('node_modules/missing/package.json', '{}');`,
  );
  writeFileSync(join(folder, 'package-lock.json'), '{}');
  writeFileSync(join(folder, 'node_modules', 'present', 'package.json'), '{}');
  describePackage('>=20', ['present']);
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

function describePackage(node: string, names: readonly string[]): void {
  const dependencies = Object.fromEntries(names.map((name) => [name, '1.0.0']));
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ engines: { node }, dependencies }));
}

function ready(given: readonly string[] = [], environment: Record<string, string> = {}) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(folder, 'tools', 'ready.mjs'), ...given],
    {
      encoding: 'utf8',
      env: { PATH: process.env['PATH'], npm_execpath: join(folder, 'npm-cli.js'), ...environment },
    },
  );
  return { status, stdout, stderr };
}

const nothingDone = { status: 0, stdout: '', stderr: '' };

test('a fresh clone installs the locked packages once, and then has nothing to say', () => {
  const first = ready();
  expect(first.status).toBe(0);
  expect(first.stderr).toContain('npm ci --include=dev');
  expect(ready()).toEqual(nothingDone);
});

test('a changed lock file, a missing package and another Node each install again', () => {
  ready();
  writeFileSync(join(folder, 'package-lock.json'), '{ }');
  expect(ready().stderr).toContain('npm ci');
  expect(ready()).toEqual(nothingDone);
  describePackage('>=20', ['present', 'missing']);
  rmSync(join(folder, 'node_modules', 'missing'), { recursive: true });
  expect(ready().stderr).toContain('npm ci');
  expect(ready()).toEqual(nothingDone);
  const stamp = join(folder, 'node_modules', '.ready');
  const lock = readFileSync(join(folder, 'package-lock.json'), 'utf8');
  const elsewhere = createHash('sha256').update(lock).update('v1.0.0 linux x64').digest('hex');
  writeFileSync(stamp, elsewhere);
  expect(ready().stderr).toContain('npm ci');
});

test('quiet writes nothing on standard output, even while it installs', () => {
  const { status, stdout, stderr } = ready(['--quiet']);
  expect({ status, stdout }).toEqual({ status: 0, stdout: '' });
  expect(stderr).toContain('npm ci');
});

test('packages that cannot be installed leave the clone unready', () => {
  writeFileSync(join(folder, 'npm-cli.js'), 'process.exit(7)');
  expect(ready()).toMatchObject({ status: 1 });
  expect(ready().stderr).toContain('could not be installed');
});

test.each([
  ['>=99', false],
  ['^19.0.0', false],
  ['^19.0.0 || >=99', false],
  ['>=20', true],
  [`^${process.versions.node} || >=99`, true],
])('Node is held to the range %s of package.json: %s', (range, fits) => {
  describePackage(range, ['present']);
  const { status, stderr } = ready();
  expect(status).toBe(fits ? 0 : 1);
  if (!fits) expect(stderr).toContain(`aftrun needs Node ${range}; this is Node`);
});

test('a CHROMIUM_PATH with nothing to run at it is refused, and named', () => {
  const { status, stderr } = ready(['--browser'], { CHROMIUM_PATH: '/nowhere/chromium' });
  expect(status).toBe(1);
  expect(stderr).toContain('/nowhere/chromium');
});

test('CHROMIUM_PATH goes before the usual places, and the first usual place that can be run is taken', () => {
  const places = ['/nowhere/chromium', process.execPath, '/bin/sh'];
  expect(chromiumPath({}, places)).toBe(process.execPath);
  expect(chromiumPath({ CHROMIUM_PATH: '/bin/sh' }, places)).toBe('/bin/sh');
  expect(chromiumPath({ CHROMIUM_PATH: '/nowhere' }, places)).toBeUndefined();
  expect(chromiumPath({}, ['/nowhere'])).toBeUndefined();
});
