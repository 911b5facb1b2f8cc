/** The host on Node: the real file system and clock. The only module, with its git, that reads or writes files. */
import { open, readdir, readFile, realpath, stat, unlink } from 'node:fs/promises';
import { resolve } from 'node:path';
import { type FileRead, type Host, MAXIMUM_FILE_BYTES, type WriteCondition, type Written } from './host';
import { listRepository, readRepository } from './host-node-git';
import { replaceFile } from './host-node-write';
import { bytesToWrite } from './host-text';
import { type FolderEntry, type FolderReader, type LinkTarget, walk } from './host-walk';

export interface NodeHostOptions {
  /** Whether git may be asked; without it, in a workspace that is not trusted, `.gitignore` files are read instead. */
  readonly git: boolean;
}

export function createNodeHost({ git }: NodeHostOptions): Host {
  return {
    readFile: readWholeFile,
    listFiles: (root, wanted) => walk(FOLDERS, root, wanted, git ? listRepository : async () => null),
    stat: kindOf,
    writeFile: writeWholeFile,
    repository: async (folder) => (git ? readRepository(folder) : null),
    now: Date.now,
  };
}

/** A path as the host takes it: absolute, with `/`, from one that a person wrote. */
export function hostPath(path: string): string {
  return withSlashes(resolve(path));
}

const FOLDERS: FolderReader = {
  readFolder,
  readText: readSmallText,
  followLink,
  // git's own default for core.ignoreCase on these systems.
  ignoresCase: process.platform === 'win32' || process.platform === 'darwin',
};

async function readWholeFile(path: string, most = MAXIMUM_FILE_BYTES): Promise<FileRead> {
  try {
    const found = await stat(path);
    // Opening a pipe would wait for someone to write into it.
    if (!found.isFile())
      return { type: 'unreadable', reason: found.isDirectory() ? 'it is a folder' : 'it is no file' };
    if (found.size > most) return { type: 'too-large', size: found.size };
    const bytes = await readFile(path);
    return bytes.length > most ? { type: 'too-large', size: bytes.length } : { type: 'bytes', bytes };
  } catch (error) {
    return codeOf(error) === 'ENOENT' ? { type: 'missing' } : { type: 'unreadable', reason: reasonOf(error) };
  }
}

async function kindOf(path: string): ReturnType<Host['stat']> {
  try {
    const found = await stat(path);
    return found.isFile() ? 'file' : found.isDirectory() ? 'folder' : null;
  } catch {
    return null;
  }
}

async function writeWholeFile(path: string, content: string | Uint8Array, condition: WriteCondition): Promise<Written> {
  const bytes = Buffer.from(bytesToWrite(content, condition));
  try {
    if (condition.type === 'absent') return await writeNewFile(path, bytes);
    if (condition.type === 'unchanged') return await writeUnchanged(path, bytes, condition.bytes);
    await replaceFile(path, bytes);
    return { type: 'written' };
  } catch (error) {
    return { type: 'failed', reason: reasonOf(error) };
  }
}

/** Takes the name first, with an empty file that only one writer can create, so that no other file is ever replaced. */
async function writeNewFile(path: string, bytes: Buffer): Promise<Written> {
  try {
    await (await open(path, 'wx')).close();
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return { type: 'refused', reason: 'the file exists already' };
    throw error;
  }
  try {
    await replaceFile(path, bytes);
    return { type: 'written' };
  } catch (error) {
    await unlink(path);
    throw error;
  }
}

/** Between the look at the file and its replacement nobody else who keeps to this may write it. */
async function writeUnchanged(path: string, bytes: Buffer, before: Uint8Array): Promise<Written> {
  const lock = `${path}.lock`;
  if (!(await takeLock(lock))) return { type: 'refused', reason: 'it is being written by another program' };
  try {
    // Replacing a file asks for no permission on the file itself.
    if (((await stat(path)).mode & ANYONE_WRITES) === 0) return { type: 'failed', reason: 'permission denied' };
    if (!(await holds(path, before))) return { type: 'refused', reason: 'the file has changed since it was read' };
    await replaceFile(path, bytes);
    return { type: 'written' };
  } finally {
    await unlink(lock);
  }
}

const ANYONE_WRITES = 0o222;
/** A lock this old was left behind by a program that was killed. */
const OLDEST_LOCK_MILLISECONDS = 10_000;

async function takeLock(lock: string): Promise<boolean> {
  try {
    await (await open(lock, 'wx')).close();
    return true;
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw error;
  }
  const found = await stat(lock).catch(() => null);
  if (found !== null && Date.now() - found.mtimeMs > OLDEST_LOCK_MILLISECONDS)
    await unlink(lock).catch(() => undefined);
  return false;
}

async function holds(path: string, bytes: Uint8Array): Promise<boolean> {
  const present = await readWholeFile(path);
  return present.type === 'bytes' && Buffer.from(present.bytes).equals(bytes);
}

async function readFolder(path: string): ReturnType<FolderReader['readFolder']> {
  try {
    const entries = await readdir(path, { withFileTypes: true });
    return entries.map((entry): FolderEntry => {
      if (entry.isSymbolicLink()) return { name: entry.name, kind: 'link' };
      return { name: entry.name, kind: entry.isFile() ? 'file' : entry.isDirectory() ? 'folder' : 'other' };
    });
  } catch (error) {
    return { reason: reasonOf(error) };
  }
}

async function followLink(path: string): Promise<LinkTarget> {
  try {
    const target = await realpath(path);
    const found = await stat(target);
    if (!found.isFile() && !found.isDirectory()) return { type: 'unreadable', reason: 'it leads to no file' };
    return { type: found.isFile() ? 'file' : 'folder', path: withSlashes(target) };
  } catch (error) {
    return { type: 'unreadable', reason: codeOf(error) === 'ENOENT' ? 'the link leads nowhere' : reasonOf(error) };
  }
}

async function readSmallText(path: string): Promise<string | null> {
  const read = await readWholeFile(path);
  // git reads bytes; whatever is not UTF-8 in them cannot be part of a name that is.
  return read.type === 'bytes' ? new TextDecoder().decode(read.bytes) : null;
}

function withSlashes(path: string): string {
  return process.platform === 'win32' ? path.replaceAll('\\', '/') : path;
}

/** Errors of the file system in words, by their code (errno(3)). */
const REASONS: ReadonlyMap<string, string> = new Map([
  ['EACCES', 'permission denied'],
  ['EPERM', 'permission denied'],
  ['ENOENT', 'there is no such file or folder'],
  ['ENOTDIR', 'a part of the path is no folder'],
  ['EISDIR', 'it is a folder'],
  ['ELOOP', 'its links go round in a circle'],
  ['ENAMETOOLONG', 'the name is too long'],
  ['ENOSPC', 'the disk is full'],
  ['EDQUOT', 'the disk quota is used up'],
  ['EFBIG', 'the file would be larger than may be written'],
  ['EROFS', 'the disk is read-only'],
  ['EMFILE', 'too many files are open'],
]);

function reasonOf(error: unknown): string {
  const code = codeOf(error);
  return (code && REASONS.get(code)) ?? (error instanceof Error ? error.message : String(error));
}

function codeOf(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
}
