/** The host where the program has no files of its own, as in a browser: what the editor at the other end hands over. */
import { type FileKind, type FileRead, type Host, MAXIMUM_FILE_BYTES } from './host';
import { type FolderEntry, type FolderReader, type LinkTarget, walk } from './host-walk';

/**
 * What the other end is asked for. Paths are keys as {@link Host} takes them; of schemes that are no files, whole URIs
 * without escapes (`memory:/a b.md`). Nothing rejects: what cannot be had says why.
 */
export interface RemoteFiles {
  /** More than `most` bytes are refused, not read. */
  readFile(path: string, most: number): Promise<FileRead>;
  readFolder(path: string): ReturnType<FolderReader['readFolder']>;
  stat(path: string): Promise<FileKind | null>;
}

/** There is no git, nothing is written, and where links lead is not known. */
export function createWebHost(files: RemoteFiles): Host {
  const reader: FolderReader = {
    readFolder: async (path) => inOrder(await files.readFolder(path)),
    readText: async (path) => {
      const read = await files.readFile(path, MAXIMUM_FILE_BYTES);
      return read.type === 'bytes' ? new TextDecoder().decode(read.bytes) : null;
    },
    followLink: (path) => followLink(files, path),
    ignoresCase: false,
  };
  return {
    readFile: (path, most = MAXIMUM_FILE_BYTES) => files.readFile(path, most),
    listFiles: (root, wanted) => walk(reader, root, wanted, async () => null),
    stat: (path) => files.stat(path),
    writeFile: async () => ({ type: 'failed', reason: 'the editor alone writes files here' }),
    repository: async () => null,
    now: Date.now,
  };
}

/** Editors list folders in an order of their own. */
function inOrder(read: readonly FolderEntry[] | { readonly reason: string }): typeof read {
  return 'reason' in read ? read : [...read].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

/** Two names of one file would define everything in it twice: a link to a file is left out, and said to be. */
async function followLink(files: RemoteFiles, path: string): Promise<LinkTarget> {
  const kind = await files.stat(path);
  if (kind === 'folder') return { type: 'folder', path };
  if (kind === null) return { type: 'unreadable', reason: 'the link leads nowhere' };
  return { type: 'unreadable', reason: 'it is a link, and the editor does not tell where it leads' };
}
