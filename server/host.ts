/** The port to the outside: all that the product asks of a file system and a clock, and how bytes become text. */
import type { PathFilter } from './model/configuration-glob';

/**
 * What an implementer owes:
 * - Paths are absolute and written with `/` (`C:/…` on Windows); paths in a {@link Listing} are relative to its root.
 * - No method rejects for what the outside is like (missing, unreadable, full): that is part of the answer. A rejection
 *   is a bug of the implementation.
 * - The same state of the outside gives the same answer, in the same order.
 * - Nothing that lies outside is executed.
 */
export interface Host {
  /**
   * The bytes of a file; symbolic links are followed. More than `most`, by default {@link MAXIMUM_FILE_BYTES}, are refused,
   * not read.
   */
  readFile(path: string, most?: number): Promise<FileRead>;
  /**
   * The files in and below the folder `root` for which `wanted` holds. Left out: what `.gitignore` files (at and above
   * it, up to the top of its repository) ignore, folders called `node_modules` or beginning with `.`, folders that are
   * products of their own, and links to folders. A link to a file is listed unless the file is listed itself or by an
   * earlier link. A root that is itself ignored is listed as if it were not.
   */
  listFiles(root: string, wanted: PathFilter): Promise<Listing>;
  /** What stands at the path, links followed; null when there is nothing, or nothing that may be seen. */
  stat(path: string): Promise<FileKind | null>;
  /**
   * Writes a whole file: afterwards it holds either all of the content, a text as UTF-8, or what it held before. Its folder must
   * exist. A link is written through; mode, owner and a byte order mark that the text was read with are kept.
   */
  writeFile(path: string, content: string | Uint8Array, condition: WriteCondition): Promise<Written>;
  /** What git knows of a folder; null in no repository, and where git may not be asked. */
  repository(folder: string): Promise<Repository | null>;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  now(): number;
}

export type FileKind = 'file' | 'folder';

export interface Repository {
  /** The folder below the top of its repository, with `/` at its end; empty for the top itself. */
  readonly prefix: string;
  /** The commit that is checked out, in hexadecimal; null before the first one. */
  readonly revision: string | null;
  /** A Markdown, CSV or YAML file in the folder differs from that commit. */
  readonly isModified: boolean;
}

export type FileRead =
  | { readonly type: 'bytes'; readonly bytes: Uint8Array }
  | { readonly type: 'missing' }
  | { readonly type: 'too-large'; readonly size: number }
  /** `reason` in words: `permission denied`. */
  | { readonly type: 'unreadable'; readonly reason: string };

/** Lists are in order of code units, without repetition. */
export interface Listing {
  readonly files: readonly string[];
  /** Folders below the root that are products of their own; what is in them is not listed. */
  readonly nested: readonly string[];
  /** What should have been looked into and could not be; the rest is listed. */
  readonly unreadable: readonly Unreadable[];
}

export interface Unreadable {
  readonly path: string;
  readonly reason: string;
}

/**
 * When a file may be written. `absent`: nothing stands there. `unchanged`: it still holds the bytes that the new text was
 * made from. `always`: whatever stands there.
 */
export type WriteCondition =
  | { readonly type: 'absent' }
  | { readonly type: 'unchanged'; readonly bytes: Uint8Array }
  | { readonly type: 'always' };

export type Written =
  | { readonly type: 'written' }
  /** The condition does not hold: the file exists, or has changed. Nothing was written. */
  | { readonly type: 'refused'; readonly reason: string }
  | { readonly type: 'failed'; readonly reason: string };

/** The largest file that is read (3-semantics, Limits: 2 MB). */
export const MAXIMUM_FILE_BYTES = 2_000_000;

/** Today in UTC, as ISO 8601 writes it. */
export function today(host: Host): string {
  return new Date(host.now()).toISOString().slice(0, 10);
}

/** The order of lists of paths: by UTF-16 code unit, the same in every locale. */
export function comparePaths(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The folder that holds a file or folder; null above the top (`/`, `C:/`). */
export function folderAbove(path: string): string | null {
  const trimmed = path.replace(/\/+$/, '');
  const slash = trimmed.lastIndexOf('/');
  if (slash < 0) return null;
  return slash === trimmed.indexOf('/') ? trimmed.slice(0, slash + 1) : trimmed.slice(0, slash);
}

/** Something in a folder, by its name or its path below the folder. */
export function pathIn(folder: string, name: string): string {
  return folder.endsWith('/') ? folder + name : `${folder}/${name}`;
}

/** A path below a folder, both absolute: `b/c` of `/a/b/c` below `/a`; empty for the folder itself. */
export function pathBelow(folder: string, path: string): string {
  return path.slice(folder.endsWith('/') ? folder.length : folder.length + 1);
}
