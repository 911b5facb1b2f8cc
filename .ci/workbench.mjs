/** A VS Code workbench that a browser can open, from npm alone, in a cache folder outside the checkout. */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';

/** VS Code 1.100: the newest whose server runs on Node 20. */
const WORKBENCH = 'code-server@4.100.3';
/** The version that the workbench asks for downloads a binary; this one has it inside. */
const PASSWORD_HASH = 'argon2@0.44.0';
/** Dependencies of the workbench's server for other systems and for signing in. */
const UNUSED = ['kerberos', '@vscode/windows-process-tree', '@vscode/windows-registry'];

/** What the workbench's server loads when it is there. */
const NATIVE = ['@vscode/spdlog', 'native-watchdog'];

/** Where the workbench is, installed or not. PLIMSOLL_EDITORS names another cache folder. */
export function workbenchFolder() {
  const cache = process.env.PLIMSOLL_EDITORS ?? join(homedir(), '.cache', 'plimsoll-editors');
  return join(cache, WORKBENCH.replace('@', '-'));
}

/** The program to run with Node, or null where no workbench is installed. */
export function workbenchProgram() {
  const program = join(workbenchFolder(), 'node_modules', 'code-server', 'out', 'node', 'entry.js');
  return existsSync(program) ? program : null;
}

/** Takes a minute the first time. */
export function installWorkbench() {
  if (workbenchProgram() !== null) return;
  const folder = workbenchFolder();
  const scratch = `${folder}.${process.pid}`;
  console.log(`Installing a VS Code workbench for the tests in ${folder}`);
  rmSync(scratch, { recursive: true, force: true });
  mkdirSync(scratch, { recursive: true });
  try {
    installInto(scratch);
    if (workbenchProgram() === null) renameSync(scratch, folder);
  } catch (error) {
    console.log(`Not run for want of a workbench: tests/editor. ${error.message}`);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

/** No install script may run: they download from elsewhere than the registry. */
function installInto(folder) {
  writeFileSync(join(folder, 'package.json'), '{"private": true}\n');
  npm(folder, ['install', '--no-save', WORKBENCH]);
  const argon = join(folder, 'argon');
  npm(folder, ['install', '--no-save', '--prefix', argon, PASSWORD_HASH]);
  rmSync(join(folder, 'node_modules', 'argon2'), { recursive: true, force: true });
  cpSync(join(argon, 'node_modules'), join(folder, 'node_modules'), { recursive: true });
  rmSync(argon, { recursive: true, force: true });
  installServer(join(folder, 'node_modules', 'code-server', 'lib', 'vscode'));
}

function installServer(server) {
  rmSync(join(server, 'npm-shrinkwrap.json'), { force: true });
  const manifestFile = join(server, 'package.json');
  const manifest = JSON.parse(readFileSync(manifestFile, 'utf8'));
  for (const name of UNUSED) delete manifest.dependencies[name];
  manifest.overrides = Object.fromEntries(
    Object.entries(manifest.overrides ?? {}).filter(([name]) => !UNUSED.includes(name.split('@')[0])),
  );
  writeFileSync(manifestFile, JSON.stringify(manifest, null, 2));
  npm(server, ['install', '--omit=dev', '--no-package-lock']);
  buildNative(server, Object.keys(manifest.dependencies));
  symlinkSync('node_modules', join(server, 'node_modules.asar'));
  linkSearch(join(server, 'node_modules', '@vscode', 'ripgrep', 'bin'));
}

/**
 * With Node's own headers where the system has them. Without a compiler the workbench runs too: it has no log of its own
 * then, and says so at length in the browser's console.
 */
function buildNative(server, dependencies) {
  const wanted = NATIVE.filter((name) => dependencies.includes(name));
  const headers = existsSync('/usr/include/node/node_version.h') ? { npm_config_nodedir: '/usr' } : {};
  const env = { ...process.env, ...headers };
  const { status } = spawnSync('npm', ['rebuild', ...wanted], { cwd: server, env, stdio: 'ignore' });
  if (status !== 0) console.log('The native modules of the workbench could not be built: it runs without them.');
}

/** The package downloads its program when it is installed; the system's serves as well. */
function linkSearch(folder) {
  const found = spawnSync('which', ['rg'], { encoding: 'utf8' }).stdout.trim();
  mkdirSync(folder, { recursive: true });
  symlinkSync(found, join(folder, 'rg'));
}

function npm(cwd, args) {
  const all = [...args, '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  const { status, stderr } = spawnSync('npm', all, { cwd, encoding: 'utf8' });
  if (status !== 0) throw new Error(`npm ${args.join(' ')} failed: ${stderr.trim().split('\n').slice(-5).join(' ')}`);
}
