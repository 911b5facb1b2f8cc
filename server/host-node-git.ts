/** Runs git where nothing of the repository is executed, and lists a product's files with it. */
import { spawn } from 'node:child_process';
import { lstat } from 'node:fs/promises';
import { comparePaths, pathIn, type Repository, type Unreadable } from './host';
import { type Found, isSkippedFolder } from './host-walk';
import { CONFIGURATION_FILE } from './model/configuration';
import type { PathFilter } from './model/configuration-glob';

export interface GitResult {
  /** Exit status; null when git is not installed or was stopped. */
  readonly status: number | null;
  readonly output: Buffer;
  readonly errors: string;
}

/** Settings that keep a repository's own configuration from starting programs, given before the command. */
const SAFE_SETTINGS = [
  '--no-optional-locks',
  '--literal-pathspecs',
  ...['core.fsmonitor=false', 'core.hooksPath=/dev/null', 'submodule.recurse=false'].flatMap((setting) => [
    '-c',
    setting,
  ]),
];

/** Tracked and untracked files that are not ignored, relative to the folder, with the mode of the tracked ones. */
const LIST_FILES = ['ls-files', '--cached', '--others', '--exclude-standard', '--stage', '-z'];

/** A tracked entry: mode, object, stage, path (git-ls-files(1), Output). */
const TRACKED = /^(\d{6}) [0-9a-f]+ [0-3]\t(.*)$/s;
const MODE_OF_REPOSITORY = '160000';

const UNREADABLE_FOLDER = /^warning: could not open directory '(.*?)\/?': (.*)$/gm;

/** Runs git in a folder with a fixed argument list, without a shell. Revisions belong after `--end-of-options`. */
export function runGit(folder: string, command: readonly string[]): Promise<GitResult> {
  return new Promise((resolve) => {
    const child = spawn('git', [...SAFE_SETTINGS, ...command], {
      cwd: folder,
      env: gitEnvironment(),
      stdio: ['ignore', 'pipe', 'pipe'],
      windowsHide: true,
    });
    const output: Buffer[] = [];
    const errors: Buffer[] = [];
    child.stdout.on('data', (chunk: Buffer) => output.push(chunk));
    child.stderr.on('data', (chunk: Buffer) => errors.push(chunk));
    child.on('error', (error) => resolve({ status: null, output: Buffer.alloc(0), errors: error.message }));
    child.on('close', (status) => {
      resolve({ status, output: Buffer.concat(output), errors: Buffer.concat(errors).toString('utf8') });
    });
  });
}

/** Lists a folder of a repository; null when it is none, git is missing, or git says that nothing is there. */
export async function listRepository(folder: string, prefix: string, wanted: PathFilter): Promise<Found | null> {
  const { status, output, errors } = await runGit(folder, LIST_FILES);
  if (status !== 0 || output.length === 0) return null;
  const entries = entriesOf(output.toString('utf8')).filter((entry) => !isSkipped(entry));
  const nested = await nestedProducts(folder, entries);
  const inside = entries.filter(({ path }) => !nested.some((product) => path.startsWith(`${product}/`)));
  const { files, links } = await sortOut(
    folder,
    inside.filter(({ path, isRepository }) => !isRepository && wanted(prefix + path)),
  );
  const prefixed = (paths: readonly string[]) => paths.map((path) => prefix + path);
  return {
    files: prefixed(files),
    links: prefixed(links),
    nested: prefixed(nested),
    repositories: prefixed(inside.filter(({ isRepository }) => isRepository).map(({ path }) => path)),
    unreadable: unreadableFolders(errors).map(({ path, reason }) => ({ path: prefix + path, reason })),
  };
}

/** The commit that a folder stands at; null in no repository, and where git is missing. */
export async function readRepository(folder: string): Promise<Repository | null> {
  const place = await runGit(folder, ['rev-parse', '--show-prefix']);
  if (place.status !== 0) return null;
  const [commit, changes] = await Promise.all([
    runGit(folder, ['rev-parse', '--verify', '--quiet', '--end-of-options', 'HEAD^{commit}']),
    runGit(folder, ['status', '--porcelain', '--untracked-files=all', '-z', '--', '.']),
  ]);
  return {
    prefix: place.output.toString('utf8').replace(/\r?\n$/, ''),
    revision: commit.status === 0 ? commit.output.toString('utf8').trim() : null,
    isModified: changes.output
      .toString('utf8')
      .split('\0')
      .some((entry) => OF_PRODUCT.test(entry)),
  };
}

/** Files that a product is made of. */
const OF_PRODUCT = /\.(?:md|csv|ya?ml)$/i;

/** What git warned it could not look into; needs its messages untranslated. */
export function unreadableFolders(errors: string): readonly Unreadable[] {
  return [...errors.matchAll(UNREADABLE_FOLDER)].map(([, path = '', reason = '']) => ({
    path,
    reason: reason.toLowerCase(),
  }));
}

interface Entry {
  readonly path: string;
  readonly isRepository: boolean;
}

/** A hook that runs us points these at its own repository, which need not be ours. */
const VARIABLES_OF_HOOKS = [
  'GIT_DIR',
  'GIT_WORK_TREE',
  'GIT_INDEX_FILE',
  'GIT_PREFIX',
  'GIT_COMMON_DIR',
  'GIT_NAMESPACE',
];

function gitEnvironment(): NodeJS.ProcessEnv {
  const inherited = Object.entries(process.env).filter(([name]) => !VARIABLES_OF_HOOKS.includes(name));
  return {
    ...Object.fromEntries(inherited),
    LC_ALL: 'C',
    GIT_OPTIONAL_LOCKS: '0',
    GIT_TERMINAL_PROMPT: '0',
    GIT_NO_LAZY_FETCH: '1',
  };
}

/** An entry in conflict is printed once a stage, hence the set. */
function entriesOf(output: string): readonly Entry[] {
  const lines = new Map(
    output
      .split('\0')
      .filter(Boolean)
      .map(entryOf)
      .map((entry) => [entry.path, entry]),
  );
  return [...lines.values()].sort((a, b) => comparePaths(a.path, b.path));
}

function entryOf(line: string): Entry {
  const [, mode, path] = TRACKED.exec(line) ?? [];
  if (path !== undefined) return { path, isRepository: mode === MODE_OF_REPOSITORY };
  return { path: line.replace(/\/$/, ''), isRepository: line.endsWith('/') };
}

function isSkipped({ path, isRepository }: Entry): boolean {
  const names = path.split('/');
  return (isRepository ? names : names.slice(0, -1)).some(isSkippedFolder);
}

/** The outermost folders that hold a configuration of their own. */
async function nestedProducts(folder: string, entries: readonly Entry[]): Promise<readonly string[]> {
  const products: string[] = [];
  for (const { path } of entries) {
    if (!path.endsWith(`/${CONFIGURATION_FILE}`)) continue;
    if ((await kindOf(pathIn(folder, path))) === 'file') products.push(path.slice(0, -CONFIGURATION_FILE.length - 1));
  }
  return products.filter((product) => !products.some((other) => product.startsWith(`${other}/`)));
}

/** Tracked files may have been deleted, and untracked ones be links. */
async function sortOut(folder: string, entries: readonly Entry[]): Promise<{ files: string[]; links: string[] }> {
  const files: string[] = [];
  const links: string[] = [];
  const kinds = await Promise.all(entries.map(({ path }) => kindOf(pathIn(folder, path))));
  entries.forEach(({ path }, index) => {
    if (kinds[index] === 'file') files.push(path);
    if (kinds[index] === 'link') links.push(path);
  });
  return { files, links };
}

async function kindOf(path: string): Promise<'file' | 'link' | 'other'> {
  try {
    const found = await lstat(path);
    return found.isFile() ? 'file' : found.isSymbolicLink() ? 'link' : 'other';
  } catch {
    return 'other';
  }
}
