// Makes a clone ready to run: the right Node, the locked packages, and with --browser a Chromium.
// Runs before anything is installed, so Node built-ins only. With --quiet it says nothing unless it
// has to work or to fail, and never writes on standard output.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromiumPath } from './chromium.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const quiet = process.argv.includes('--quiet');
const stamp = join(root, 'node_modules', '.ready');
const facts = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

checkNode();
if (!packagesStand()) installPackages();
if (process.argv.includes('--browser')) readyBrowser();

function checkNode() {
  const wanted = facts.engines.node;
  if (wanted.split('||').some((range) => holds(process.versions.node, range.trim()))) return;
  fail(
    `aftrun needs Node ${wanted}; this is Node ${process.versions.node}. Install a fitting Node and run this again.`,
  );
}

/** Whether a version lies in a range written as ^a.b.c or >=a.b.c. */
function holds(version, range) {
  const [, sign, wanted] = /^(\^|>=)\s*([\d.]+)$/.exec(range) ?? [];
  if (wanted === undefined)
    fail(`package.json: engines.node: ^a.b.c or >=a.b.c expected, got "${range}".`);
  const have = version.split('.').map(Number);
  const want = wanted.split('.').map(Number);
  if (sign === '^' && have[0] !== want[0]) return false;
  for (let i = 0; i < want.length; i++) {
    if (have[i] !== want[i]) return have[i] > want[i];
  }
  return true;
}

/** What the installed packages depend on: the lock file, the Node they were installed under, the machine. */
function fingerprint() {
  return createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .update(`${process.version} ${process.platform} ${process.arch}`)
    .digest('hex');
}

function packagesStand() {
  if (!existsSync(stamp) || readFileSync(stamp, 'utf8').trim() !== fingerprint()) return false;
  const direct = Object.keys({ ...facts.dependencies, ...facts.devDependencies });
  return direct.every((name) => existsSync(join(root, 'node_modules', name, 'package.json')));
}

function installPackages() {
  say('Installing the locked packages (npm ci), once ...');
  const npm = process.env.npm_execpath ?? '';
  const underNpm = /^npm(-cli)?\.[cm]?js$/.test(basename(npm));
  // A silent parent (npm run -s) would hide the reason of a failure, hence the log level.
  const given = ['ci', '--include=dev', '--loglevel=error'];
  const done = underNpm
    ? run(process.execPath, [npm, ...given])
    : run('npm', given, { shell: process.platform === 'win32' });
  if (done !== 0) fail('The packages could not be installed; the reason stands above.');
  writeFileSync(stamp, `${fingerprint()}\n`);
}

function readyBrowser() {
  if (chromiumPath() !== undefined) return;
  if (process.env.CHROMIUM_PATH) {
    fail(`CHROMIUM_PATH says ${process.env.CHROMIUM_PATH}, but nothing there can be run.`);
  }
  if (process.getuid?.() === 0 && existsSync('/etc/debian_version')) {
    say('Installing Chromium for the browser tests (apt-get), once ...');
    if (run('apt-get', ['update', '-qq']) === 0) {
      run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], {
        env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
      });
    }
    if (chromiumPath() !== undefined) return;
  }
  const advice =
    'No Chromium was found for the browser tests. Install one, or set CHROMIUM_PATH to the one you have.';
  if (process.env.CI === 'true') fail(advice);
  say(`${advice} Until then they are skipped.`);
}

/** Runs a program with its output on standard error; returns its exit status, 1 where it did not start. */
function run(command, given, options = {}) {
  return spawnSync(command, given, { cwd: root, stdio: ['ignore', 2, 2], ...options }).status ?? 1;
}

function say(text) {
  if (quiet) process.stderr.write(`${text}\n`);
  else process.stdout.write(`${text}\n`);
}

function fail(text) {
  process.stderr.write(`${text}\n`);
  process.exit(1);
}
