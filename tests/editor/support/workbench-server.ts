/** Starts a VS Code workbench that serves one folder, with the packed extension installed, and stops it by its own process. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { workbenchProgram } from '../../../.ci/workbench.mjs';

const EXTENSION = join(import.meta.dirname, '..', '..', '..', 'plimsoll.vsix');
/** Milliseconds. */
const BOOTS_WITHIN = 60_000;

/** Nothing of the workbench's own interrupts a test, and nothing calls out. */
const SETTINGS = {
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.enableExperiments': false,
  'workbench.welcomePage.walkthroughs.openOnInstall': false,
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'update.showReleaseNotes': false,
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'security.workspace.trust.enabled': false,
  'git.enabled': false,
  'git.openRepositoryInParentFolders': 'never',
  'npm.fetchOnlinePackageInfo': false,
  'typescript.disableAutomaticTypeAcquisition': true,
  'json.schemaDownload.enable': false,
  'chat.commandCenter.enabled': false,
  'chat.disableAIFeatures': true,
  'window.commandCenter': false,
  'editor.minimap.enabled': false,
  'files.simpleDialog.enable': true,
  'window.dialogStyle': 'custom',
  'editor.accessibilitySupport': 'off',
  'remote.autoForwardPorts': false,
  'remote.restoreForwardedPorts': false,
  'files.autoSave': 'off',
  'files.hotExit': 'off',
};

export interface WorkbenchOptions {
  /** The folder that is opened. */
  readonly folder: string;
  /** The URI of a virtual folder that is opened in its place. */
  readonly virtual?: string;
  readonly settings?: Readonly<Record<string, unknown>>;
  /** False: the extension is not installed, but comes another way. */
  readonly installs?: boolean;
  /** Folders are trusted only when somebody says so. */
  readonly asksForTrust?: boolean;
}

export interface WorkbenchServer {
  readonly url: string;
  readonly port: number;
  /** The process of the extension's language server; null while there is none. */
  languageServer(): number | null;
  stop(): Promise<void>;
}

export async function startWorkbenchServer(options: WorkbenchOptions): Promise<WorkbenchServer> {
  const program = workbenchProgram();
  if (program === null) throw new Error('no workbench is installed: node .ci/test-tools.mjs');
  const home = mkdtempSync(join(tmpdir(), 'plimsoll-workbench-'));
  const base = prepared(home, options);
  const env = { ...process.env, HOME: home, XDG_CONFIG_HOME: home, XDG_DATA_HOME: home, EXTENSIONS_GALLERY: '{}' };
  if (options.installs !== false) install(program, base, env);
  const port = await freePort();
  const log = join(home, 'server.log');
  const output = openSync(log, 'w');
  const trust = options.asksForTrust ? [] : ['--disable-workspace-trust'];
  const args = [program, ...base, '--auth', 'none', '--bind-addr', `127.0.0.1:${port}`, ...QUIET, ...trust];
  const server = spawn(process.execPath, args, { stdio: ['ignore', output, output], detached: true, env });
  await waitUntilHealthy(server, port, log);
  return {
    url: `http://127.0.0.1:${port}/?folder=${encodeURIComponent(options.virtual ?? options.folder)}`,
    port,
    languageServer: () => processOf(join(home, 'extensions')),
    stop: () => stop(server, home),
  };
}

const QUIET = ['--disable-telemetry', '--disable-update-check', '--disable-getting-started-override'];

/** A home of its own, so that nothing of the person's own editor is read or written. Returns what every call needs. */
function prepared(home: string, { settings, asksForTrust }: WorkbenchOptions): readonly string[] {
  const user = join(home, 'user');
  const extensions = join(home, 'extensions');
  mkdirSync(join(user, 'User'), { recursive: true });
  mkdirSync(extensions);
  const trust = asksForTrust ? { 'security.workspace.trust.enabled': true } : {};
  writeFileSync(join(user, 'User', 'settings.json'), JSON.stringify({ ...SETTINGS, ...trust, ...settings }));
  writeFileSync(join(home, 'config.yaml'), 'auth: none\n');
  return ['--config', join(home, 'config.yaml'), '--user-data-dir', user, '--extensions-dir', extensions];
}

function install(program: string, base: readonly string[], env: NodeJS.ProcessEnv): void {
  if (!existsSync(EXTENSION)) throw new Error('plimsoll.vsix is missing: npm run package');
  const args = [program, ...base, '--install-extension', EXTENSION];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { env, encoding: 'utf8' });
  if (status !== 0) throw new Error(`the extension could not be installed: ${stdout}${stderr}`);
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}

async function waitUntilHealthy(server: ChildProcess, port: number, log: string): Promise<void> {
  for (const start = Date.now(); Date.now() - start < BOOTS_WITHIN; await pause(50)) {
    if (server.exitCode !== null) break;
    const answer = await fetch(`http://127.0.0.1:${port}/healthz`).catch(() => null);
    if (answer?.ok) return;
  }
  throw new Error(`the workbench did not start: ${readFileSync(log, 'utf8')}`);
}

/** The one that runs the server of an extension installed in the folder, which nobody else has. */
function processOf(folder: string): number | null {
  const isOurs = (id: string) => {
    try {
      const words = readFileSync(`/proc/${id}/cmdline`, 'utf8').split('\0');
      return words.some((word) => word.startsWith(folder) && word.endsWith('/server.js'));
    } catch {
      return false;
    }
  };
  const found = readdirSync('/proc').find((name) => /^\d+$/.test(name) && isOurs(name));
  return found === undefined ? null : Number(found);
}

/** The process leads a group of its own, which ends with it. */
async function stop(server: ChildProcess, home: string): Promise<void> {
  signal(server, 'SIGTERM');
  for (let round = 0; round < 50 && server.exitCode === null && server.signalCode === null; round += 1)
    await pause(100);
  signal(server, 'SIGKILL');
  rmSync(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
}

function signal({ pid }: ChildProcess, name: NodeJS.Signals): void {
  try {
    if (pid !== undefined) process.kill(-pid, name);
  } catch {
    // It has ended already.
  }
}

export function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
