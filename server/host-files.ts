/** Finds the product that a folder belongs to, and reads its files as text. */
import { comparePaths, folderAbove, type Host, pathIn, type Unreadable } from './host';
import { decodeText, tooLarge } from './host-text';
import { CONFIGURATION_FILE } from './model/configuration';
import { globFilter, type PathFilter } from './model/configuration-glob';
import type { Problem } from './syntax/span';

/** Where a product is. */
export interface ProductPlace {
  /** Absolute. */
  readonly root: string;
  readonly hasConfiguration: boolean;
  /** A file at or above the folder whose name is nearly that of a configuration, and which therefore is none. */
  readonly misnamed: string | null;
}

/** The files of a product as text. Paths are relative to its root; every list is in order of code units. */
export interface ProductTexts {
  /** All files that the selection takes in, those that were not read again as well. */
  readonly files: readonly string[];
  readonly documents: readonly DocumentText[];
  /** Folders inside it that are products of their own and were not read. */
  readonly nested: readonly string[];
  readonly unreadable: readonly Unreadable[];
}

export interface DocumentText {
  readonly path: string;
  /** Empty where the problem is not null. */
  readonly text: string;
  readonly problem: Problem | null;
}

/** Which files a configuration takes in. */
export interface FileSelection {
  readonly include: readonly string[];
  readonly exclude: readonly string[];
}

/** Names that people give the configuration by mistake. */
const MISNAMED = ['plimsoll.yml', '.plimsoll.yaml', '.plimsoll.yml', 'plimsoll.json'];

/** So many files are open at a time: enough to keep a disk busy, far below what a system allows. */
const FILES_AT_ONCE = 32;

/**
 * The nearest folder with a configuration at or above `folder`, else `folder` itself. Null when there is no such folder.
 */
export async function findProduct(host: Host, folder: string): Promise<ProductPlace | null> {
  if ((await host.stat(folder)) !== 'folder') return null;
  let misnamed: string | null = null;
  for (let candidate: string | null = folder; candidate !== null; candidate = folderAbove(candidate)) {
    if (await isFile(host, pathIn(candidate, CONFIGURATION_FILE)))
      return { root: candidate, hasConfiguration: true, misnamed };
    misnamed ??= await misnamedIn(host, candidate);
  }
  return { root: folder, hasConfiguration: false, misnamed };
}

/** Whether a path below the product's folder is one of its files. */
export function fileFilter({ include, exclude }: FileSelection): PathFilter {
  const included = globFilter(include);
  const excluded = globFilter(exclude);
  return (path) => included(path) && !excluded(path);
}

/**
 * Reads all files that the selection takes in, but those that are known and have not changed. What cannot be read is
 * reported, and the rest is read.
 */
export async function readProduct(
  host: Host,
  root: string,
  selection: FileSelection,
  isUnchanged: (path: string) => boolean = () => false,
): Promise<ProductTexts> {
  const { files, nested, unreadable } = await host.listFiles(root, fileFilter(selection));
  const wanted = files.filter((path) => !isUnchanged(path));
  const documents: DocumentText[] = [];
  const failed: Unreadable[] = [...unreadable];
  for (let start = 0; start < wanted.length; start += FILES_AT_ONCE) {
    const batch = wanted.slice(start, start + FILES_AT_ONCE);
    for (const read of await Promise.all(batch.map((path) => readDocument(host, root, path)))) {
      if ('reason' in read) failed.push(read);
      else documents.push(read);
    }
  }
  return { files, documents, nested, unreadable: failed.sort((a, b) => comparePaths(a.path, b.path)) };
}

/** Reads one file of a product. */
export async function readDocument(host: Host, root: string, path: string): Promise<DocumentText | Unreadable> {
  const read = await host.readFile(pathIn(root, path));
  if (read.type === 'unreadable') return { path, reason: read.reason };
  if (read.type === 'missing') return { path, reason: 'it was there a moment ago and is not any more' };
  if (read.type === 'too-large') return { path, text: '', problem: tooLarge(read.size) };
  const { text, problem } = decodeText(read.bytes);
  return { path, text, problem };
}

async function misnamedIn(host: Host, folder: string): Promise<string | null> {
  for (const name of MISNAMED) if (await isFile(host, pathIn(folder, name))) return pathIn(folder, name);
  return null;
}

async function isFile(host: Host, path: string): Promise<boolean> {
  return (await host.stat(path)) === 'file';
}
