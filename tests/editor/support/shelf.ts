/** A file system that only the editor knows, `shelf:`, as an extension of the page: files in memory, nobody who searches. */
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Writes the extension into a folder, with the files below another one in it. */
export function writeShelf(folder: string, from: string): void {
  const paths = readdirSync(from, { recursive: true, encoding: 'utf8' });
  const files = paths.filter((path) => statSync(join(from, path)).isFile());
  const texts = Object.fromEntries(files.map((path) => [`/${path}`, readFileSync(join(from, path), 'utf8')]));
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'package.json'), JSON.stringify(MANIFEST));
  writeFileSync(join(folder, 'shelf.js'), `const TEXTS = ${JSON.stringify(texts)};\n${PROGRAM}`);
}

const MANIFEST = {
  name: 'shelf',
  publisher: 'plimsoll',
  version: '1.0.0',
  engines: { vscode: '^1.91.0' },
  browser: './shelf.js',
  activationEvents: ['onFileSystem:shelf'],
};

/** Runs in the editor; folders are the beginnings of paths. */
const PROGRAM = `
const { EventEmitter, FileSystemError, FileType, workspace } = require('vscode');
const held = new Map(Object.entries(TEXTS).map(([path, text]) => [path, new TextEncoder().encode(text)]));
const below = (path) => (path.endsWith('/') ? path : path + '/');
const isFolder = (path) => [...held.keys()].some((one) => one.startsWith(below(path)));
const changed = new EventEmitter();
const missing = (uri) => FileSystemError.FileNotFound(uri);
const shelf = {
  onDidChangeFile: changed.event,
  watch: () => ({ dispose() {} }),
  stat(uri) {
    const bytes = held.get(uri.path);
    if (bytes === undefined && !isFolder(uri.path)) throw missing(uri);
    return { type: bytes ? FileType.File : FileType.Directory, ctime: 0, mtime: 0, size: bytes ? bytes.length : 0 };
  },
  readDirectory(uri) {
    const start = below(uri.path);
    const found = new Map();
    for (const path of held.keys()) {
      if (!path.startsWith(start)) continue;
      const [name, ...deeper] = path.slice(start.length).split('/');
      found.set(name, deeper.length > 0 ? FileType.Directory : FileType.File);
    }
    return [...found];
  },
  readFile(uri) {
    const bytes = held.get(uri.path);
    if (bytes === undefined) throw missing(uri);
    return bytes;
  },
  writeFile(uri, bytes) {
    held.set(uri.path, bytes);
    changed.fire([{ type: 1, uri }]);
  },
  createDirectory() {},
  delete(uri) {
    held.delete(uri.path);
  },
  rename() {
    throw FileSystemError.NoPermissions();
  },
};
exports.activate = ({ subscriptions }) =>
  subscriptions.push(workspace.registerFileSystemProvider('shelf', shelf, { isCaseSensitive: true }));
`;
