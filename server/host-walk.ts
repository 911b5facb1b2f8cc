/** Walks a product's folder over any file system: ignored files, nested products and links are left out alike everywhere. */
import { comparePaths, folderAbove, type Listing, pathBelow, pathIn, type Unreadable } from './host';
import { type IgnoreRules, noIgnoreRules } from './host-ignore';
import { CONFIGURATION_FILE } from './model/configuration';
import type { PathFilter } from './model/configuration-glob';

/** The few things the walk asks of a file system. Paths are absolute, with `/`. */
export interface FolderReader {
  /** What is in a folder, in any order, or why it cannot be said. */
  readFolder(path: string): Promise<readonly FolderEntry[] | { readonly reason: string }>;
  /** The text of a small file, null when there is none or it cannot be read. */
  readText(path: string): Promise<string | null>;
  /** Where links lead: the file's real path, `folder`, or why it cannot be said. */
  followLink(path: string): Promise<LinkTarget>;
  /** The file system matches names whatever their case, and `.gitignore` with it. */
  readonly ignoresCase: boolean;
}

export interface FolderEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder' | 'link' | 'other';
}

export type LinkTarget =
  | { readonly type: 'file' | 'folder'; readonly path: string }
  | { readonly type: 'unreadable'; readonly reason: string };

/** What lies in a folder, before links and repositories inside it are looked into; paths relative to the root. */
export interface Found {
  readonly files: readonly string[];
  readonly links: readonly string[];
  readonly nested: readonly string[];
  /** Folders that are repositories of their own. */
  readonly repositories: readonly string[];
  readonly unreadable: readonly Unreadable[];
}

/**
 * Lists what a repository's own tool says is in a folder of it, every path beginning with `prefix`. Null when it cannot,
 * or says that there is nothing, as it does in a folder that is ignored: then the folder is walked.
 */
export type RepositoryLister = (folder: string, prefix: string, wanted: PathFilter) => Promise<Found | null>;

/** Folders that hold nothing of the product's, wherever they are. */
export function isSkippedFolder(name: string): boolean {
  return name === 'node_modules' || name.startsWith('.');
}

/** Lists the files of the product in `root`, asking `lister` first in each repository. */
export async function walk(
  reader: FolderReader,
  root: string,
  wanted: PathFilter,
  lister: RepositoryLister,
): Promise<Listing> {
  const state: Walk = { reader, root, wanted, lister, files: [], links: [], nested: [], unreadable: [] };
  const listed = await lister(root, '', wanted);
  if (listed === null) await walkFolder(state, root, await rulesAbove(reader, root));
  else await take(state, listed);
  const files = [...state.files, ...(await linkedFiles(state))];
  return {
    files: files.sort(comparePaths),
    nested: state.nested.sort(comparePaths),
    unreadable: state.unreadable.sort((a, b) => comparePaths(a.path, b.path)),
  };
}

interface Walk {
  readonly reader: FolderReader;
  readonly root: string;
  readonly wanted: PathFilter;
  readonly lister: RepositoryLister;
  readonly files: string[];
  readonly links: string[];
  readonly nested: string[];
  readonly unreadable: Unreadable[];
}

async function take(state: Walk, found: Found): Promise<void> {
  for (const list of ['files', 'links', 'nested'] as const) for (const path of found[list]) state[list].push(path);
  state.unreadable.push(...found.unreadable);
  for (const folder of found.repositories) {
    const absolute = pathIn(state.root, folder);
    await walkFolder(state, absolute, noIgnoreRules(absolute, state.reader.ignoresCase));
  }
}

/** Looks into a folder at or below the root; `inherited` are the rules of the folders above it. */
async function walkFolder(state: Walk, folder: string, inherited: IgnoreRules): Promise<void> {
  const { reader, root } = state;
  const entries = await reader.readFolder(folder);
  if ('reason' in entries) {
    state.unreadable.push({ path: pathBelow(root, folder) || '.', reason: entries.reason });
    return;
  }
  const names = new Map(entries.map((entry) => [entry.name, entry]));
  const isRepository = folder !== root && names.has('.git');
  const above = isRepository ? noIgnoreRules(folder, reader.ignoresCase) : inherited;
  const text = names.has('.gitignore') ? await reader.readText(pathIn(folder, '.gitignore')) : null;
  const rules = text === null ? above : above.withFile(folder, text);
  const configuration = pathIn(folder, CONFIGURATION_FILE);
  if (folder !== root && names.get(CONFIGURATION_FILE)?.kind === 'file' && !rules.ignores(configuration, false)) {
    state.nested.push(pathBelow(root, folder));
    return;
  }
  const listed = isRepository ? await state.lister(folder, `${pathBelow(root, folder)}/`, state.wanted) : null;
  if (listed !== null) await take(state, listed);
  else for (const entry of entries) await walkEntry(state, folder, entry, rules);
}

async function walkEntry(state: Walk, folder: string, { name, kind }: FolderEntry, rules: IgnoreRules): Promise<void> {
  const absolute = pathIn(folder, name);
  const path = pathBelow(state.root, absolute);
  if (kind === 'folder') {
    if (!isSkippedFolder(name) && !rules.ignores(absolute, true)) await walkFolder(state, absolute, rules);
    return;
  }
  if (kind === 'other' || !state.wanted(path) || rules.ignores(absolute, false)) return;
  if (kind === 'file') state.files.push(path);
  else state.links.push(path);
}

/** The rules that hold in `root` because of the folders above it in its repository; none when they ignore `root` itself. */
async function rulesAbove(reader: FolderReader, root: string): Promise<IgnoreRules> {
  const folders = await foldersUpToRepository(reader, root);
  const top = folders[0] ?? root;
  const excluded = await reader.readText(pathIn(top, '.git/info/exclude'));
  let rules = noIgnoreRules(top, reader.ignoresCase);
  if (excluded !== null) rules = rules.withFile(top, excluded);
  for (const folder of folders) {
    if (folder === root) break;
    const text = await reader.readText(pathIn(folder, '.gitignore'));
    if (text !== null) rules = rules.withFile(folder, text);
  }
  return top !== root && rules.ignores(root, true) ? noIgnoreRules(root, reader.ignoresCase) : rules;
}

/** From the top of the repository that `root` lies in down to `root`; empty outside repositories. */
async function foldersUpToRepository(reader: FolderReader, root: string): Promise<readonly string[]> {
  const folders: string[] = [];
  for (let folder: string | null = root; folder !== null; folder = folderAbove(folder)) {
    folders.unshift(folder);
    const entries = await reader.readFolder(folder);
    if (!('reason' in entries) && entries.some(({ name }) => name === '.git')) return folders;
  }
  return [];
}

/** Links to files that are not listed under their own name; of several to one file the first. */
async function linkedFiles({ reader, root, files, links, unreadable }: Walk): Promise<readonly string[]> {
  if (links.length === 0) return [];
  const realRoot = await reader.followLink(root);
  const base = realRoot.type === 'unreadable' ? root : realRoot.path;
  const known = new Set(files.map((path) => pathIn(base, path)));
  const linked: string[] = [];
  for (const link of [...links].sort(comparePaths)) {
    const target = await reader.followLink(pathIn(root, link));
    if (target.type === 'unreadable') unreadable.push({ path: link, reason: target.reason });
    if (target.type !== 'file' || known.has(target.path)) continue;
    known.add(target.path);
    linked.push(link);
  }
  return linked;
}
