/** A host that lives in memory, for tests: the same listing rules as on disk, a clock that stands still. */
import {
  type FileKind,
  type FileRead,
  folderAbove,
  type Host,
  MAXIMUM_FILE_BYTES,
  pathBelow,
  type WriteCondition,
  type Written,
} from './host';
import { bytesToWrite, encodeText } from './host-text';
import { type FolderEntry, type FolderReader, type LinkTarget, walk } from './host-walk';

/** What stands at a path: a text, bytes, a link to an absolute path, or a file that cannot be read and why. */
export type MemoryEntry = string | Uint8Array | { readonly link: string } | { readonly unreadable: string };

export interface MemoryHost extends Host {
  /** By absolute path; may be changed between calls. Folders exist where something is in them. */
  readonly entries: Map<string, MemoryEntry>;
}

/** `now`: milliseconds since 1970, or ISO 8601. */
export function createMemoryHost(
  entries: Readonly<Record<string, MemoryEntry>> = {},
  now: string | number = '2026-01-01',
): MemoryHost {
  const held = new Map(Object.entries(entries));
  return {
    entries: held,
    readFile: async (path, most) => readFile(held, path, most),
    listFiles: (root, wanted) => walk(folderReader(held), root, wanted, async () => null),
    stat: async (path) => kindOf(held, path),
    writeFile: async (path, content, condition) => writeFile(held, path, content, condition),
    repository: async () => null,
    now: () => new Date(now).getTime(),
  };
}

type Entries = Map<string, MemoryEntry>;

function readFile(entries: Entries, path: string, most = MAXIMUM_FILE_BYTES): FileRead {
  const entry = followed(entries, path);
  if (entry === undefined) {
    return isFolder(entries, path) ? { type: 'unreadable', reason: 'it is a folder' } : { type: 'missing' };
  }
  if (typeof entry === 'object' && 'unreadable' in entry) return { type: 'unreadable', reason: entry.unreadable };
  const bytes = typeof entry === 'string' ? encodeText(entry, false) : entry;
  return bytes.length > most ? { type: 'too-large', size: bytes.length } : { type: 'bytes', bytes };
}

function writeFile(entries: Entries, path: string, content: string | Uint8Array, condition: WriteCondition): Written {
  const folder = folderAbove(path);
  if (folder === null || !isFolder(entries, folder))
    return { type: 'failed', reason: 'there is no such file or folder' };
  if (condition.type === 'absent' && entries.has(path)) return { type: 'refused', reason: 'the file exists already' };
  if (condition.type === 'unchanged' && !holds(readFile(entries, path), condition.bytes)) {
    return { type: 'refused', reason: 'the file has changed since it was read' };
  }
  entries.set(path, bytesToWrite(content, condition));
  return { type: 'written' };
}

function holds(read: FileRead, bytes: Uint8Array): boolean {
  return (
    read.type === 'bytes' && read.bytes.length === bytes.length && read.bytes.every((byte, at) => byte === bytes[at])
  );
}

/** What a path holds after links, of which at most 40 are followed, as Linux does (path_resolution(7)). */
function followed(entries: Entries, path: string): Exclude<MemoryEntry, { readonly link: string }> | undefined {
  const target = entries.get(realPath(entries, path));
  return typeof target === 'object' && 'link' in target ? { unreadable: 'its links go round in a circle' } : target;
}

function realPath(entries: Entries, path: string): string {
  let target = path;
  for (let count = 0; count < 40; count++) {
    const entry = entries.get(target);
    if (typeof entry !== 'object' || !('link' in entry)) break;
    target = entry.link;
  }
  return target;
}

function kindOf(entries: Entries, path: string): FileKind | null {
  if (followed(entries, path) !== undefined) return 'file';
  return isFolder(entries, realPath(entries, path)) ? 'folder' : null;
}

function isFolder(entries: Entries, path: string): boolean {
  const prefix = path.endsWith('/') ? path : `${path}/`;
  for (const key of entries.keys()) if (key.startsWith(prefix)) return true;
  return false;
}

function folderReader(entries: Entries): FolderReader {
  const folders = foldersOf(entries);
  return {
    readFolder: async (path) => {
      const found = folders.get(path);
      return found ? [...found.values()] : { reason: 'there is no such file or folder' };
    },
    readText: async (path) => {
      const read = readFile(entries, path);
      return read.type === 'bytes' ? new TextDecoder().decode(read.bytes) : null;
    },
    followLink: async (path) => followLink(entries, path),
    ignoresCase: false,
  };
}

function followLink(entries: Entries, path: string): LinkTarget {
  const target = followed(entries, path);
  const real = realPath(entries, path);
  if (target === undefined) {
    return isFolder(entries, real)
      ? { type: 'folder', path: real }
      : { type: 'unreadable', reason: 'the link leads nowhere' };
  }
  const isBroken = typeof target === 'object' && 'unreadable' in target && entries.get(real) !== target;
  return isBroken ? { type: 'unreadable', reason: target.unreadable } : { type: 'file', path: real };
}

/** The entries of every folder, by its path and their name. */
function foldersOf(entries: Entries): ReadonlyMap<string, ReadonlyMap<string, FolderEntry>> {
  const folders = new Map<string, Map<string, FolderEntry>>();
  for (const [path, entry] of entries) {
    const isLink = typeof entry === 'object' && 'link' in entry;
    let kind: FolderEntry['kind'] = isLink ? 'link' : 'file';
    let below = path;
    for (let folder = folderAbove(path); folder !== null; folder = folderAbove(folder)) {
      const name = pathBelow(folder, below);
      const content = folders.get(folder) ?? new Map<string, FolderEntry>();
      folders.set(folder, content.set(name, { name, kind }));
      [kind, below] = ['folder', folder];
    }
  }
  return folders;
}
