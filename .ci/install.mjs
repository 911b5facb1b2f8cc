/**
 * Installs the dependencies when they are missing or differ from package-lock.json; otherwise does nothing. With
 * `--programs` also the programs of the system that tests drive, on Debian as root; elsewhere it says what is left out.
 * With `--editors` also a VS Code workbench, outside the checkout.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isOnPath, PROGRAMS, WORKBENCH_PROGRAMS } from './programs.mjs';
import { installWorkbench } from './workbench.mjs';

const OLDEST_NODE = 20;

const root = dirname(dirname(fileURLToPath(import.meta.url)));

const major = Number(process.versions.node.split('.')[0]);
if (major < OLDEST_NODE) {
  console.error(
    `Plimsoll needs Node.js ${OLDEST_NODE} or later; this is ${process.versions.node} (${process.execPath}).`,
  );
  process.exit(1);
}

const reason = reasonToInstall();
if (reason !== null) install(reason);
if (process.argv.includes('--programs')) installPrograms();
if (process.argv.includes('--editors') && WORKBENCH_PROGRAMS.every(isOnPath)) installWorkbench();

/** Why an installation is needed, or null when what is installed is what the lock file asks for. */
function reasonToInstall() {
  // npm keeps a copy of the lock it installed; comparing contents, not dates, survives a fresh checkout or a copied folder.
  const installed = packagesIn(join(root, 'node_modules', '.package-lock.json'));
  if (installed === null) return 'node_modules is missing';
  const wanted = packagesIn(join(root, 'package-lock.json'));
  if (wanted === null) throw new Error('package-lock.json cannot be read');
  const differing = Object.entries(wanted).filter(([path, entry]) => isOutdated(path, entry, installed[path]));
  return differing.length === 0 ? null : `${differing.length} packages differ from package-lock.json`;
}

/** Optional packages (binaries of other platforms) may be absent. */
function isOutdated(path, wanted, installed) {
  if (path === '') return false;
  return installed === undefined ? !wanted.optional : installed.version !== wanted.version;
}

function packagesIn(lockFile) {
  try {
    return JSON.parse(readFileSync(lockFile, 'utf8')).packages;
  } catch {
    return null;
  }
}

function install(why) {
  console.log(`Installing dependencies (${why}): npm ci`);
  const options = ['ci', '--ignore-scripts', '--no-audit', '--no-fund'];
  // Started by npm, its own script runs without a shell on every platform; `npm` alone is a batch file on Windows.
  const script = process.env.npm_execpath;
  const { status } = script?.endsWith('.js')
    ? spawnSync(process.execPath, [script, ...options], { cwd: root, stdio: 'inherit' })
    : spawnSync('npm', options, { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' });
  if (status === 0) return;
  console.error('npm ci failed. It needs the package registry; see its message above.');
  process.exit(1);
}

function installPrograms() {
  const missing = PROGRAMS.filter(({ command }) => !isOnPath(command));
  if (missing.length === 0) return;
  const names = missing.map(({ command }) => command).join(', ');
  if (existsSync('/etc/debian_version') && process.getuid?.() === 0) {
    console.log(`Installing programs that tests drive: ${names}`);
    const packages = missing.flatMap((program) => program.packages);
    const steps = [['update'], ['install', '-y', '--no-install-recommends', ...packages]];
    for (const step of steps) spawnSync('apt-get', step, { stdio: ['ignore', 'ignore', 'inherit'] });
  }
  for (const { command, packages, tests } of missing.filter((program) => !isOnPath(program.command)))
    console.log(
      `${command} is missing: tests of ${tests} are left out (on Debian: apt-get install ${packages.join(' ')})`,
    );
}
