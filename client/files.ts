/** Files that the editor hands over to a server that cannot reach them: in a browser, or in a folder of no disk. */
import { FileSystemError, FileType, Uri, workspace } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import type { HostEntry, HostFile, HostRequests, InitializationOptions } from '../server/lsp/messages';

/** The options of a client whose server asks for every file. */
export function handingOverFiles(options: LanguageClientOptions): LanguageClientOptions {
  const initializationOptions: InitializationOptions = { ...options.initializationOptions, git: false, host: true };
  return { ...options, initializationOptions };
}

export function answerForFiles(client: BaseLanguageClient): void {
  const on = <Name extends keyof HostRequests>(
    name: Name,
    answer: (uri: Uri, params: HostRequests[Name]['params']) => Promise<HostRequests[Name]['result']>,
  ) =>
    client.onRequest<unknown, undefined>(name, (params: HostRequests[Name]['params']) =>
      answer(Uri.parse(params.uri, true), params),
    );
  on('plimsoll/host/read', (uri, { most }) => readFile(uri, most));
  on('plimsoll/host/list', readFolder);
  on('plimsoll/host/stat', async (uri) => {
    const type = await typeOf(uri);
    return type & FileType.File ? 'file' : type & FileType.Directory ? 'folder' : null;
  });
}

async function readFile(uri: Uri, most: number): Promise<HostFile | null> {
  if (!isOfWorkspace(uri)) return null;
  try {
    const { type, size } = await workspace.fs.stat(uri);
    if (!(type & FileType.File)) return { reason: type & FileType.Directory ? 'it is a folder' : 'it is no file' };
    if (size > most) return { size };
    const bytes = await workspace.fs.readFile(uri);
    return bytes.length > most ? { size: bytes.length } : { base64: base64Of(bytes) };
  } catch (error) {
    return isMissing(error) ? null : { reason: reasonOf(error) };
  }
}

async function readFolder(uri: Uri): Promise<HostRequests['plimsoll/host/list']['result']> {
  if (!isOfWorkspace(uri)) return { reason: 'it is outside the workspace' };
  try {
    const entries = await workspace.fs.readDirectory(uri);
    return { entries: entries.map(([name, type]): HostEntry => ({ name, kind: kindOf(type) })) };
  } catch (error) {
    return { reason: isMissing(error) ? 'there is no such file or folder' : reasonOf(error) };
  }
}

async function typeOf(uri: Uri): Promise<FileType> {
  if (!isOfWorkspace(uri)) return FileType.Unknown;
  try {
    return (await workspace.fs.stat(uri)).type;
  } catch {
    return FileType.Unknown;
  }
}

/** The server asks for nothing else; whatever asked would get nothing else. */
function isOfWorkspace({ scheme, authority }: Uri): boolean {
  const folders = workspace.workspaceFolders ?? [];
  return folders.some(({ uri }) => uri.scheme === scheme && uri.authority === authority);
}

function kindOf(type: FileType): HostEntry['kind'] {
  if (type & FileType.SymbolicLink) return 'link';
  return type & FileType.File ? 'file' : type & FileType.Directory ? 'folder' : 'other';
}

/** So many bytes at a time, since each is an argument of a call. */
const CHUNK = 8192;

function base64Of(bytes: Uint8Array): string {
  let binary = '';
  for (let start = 0; start < bytes.length; start += CHUNK)
    binary += String.fromCharCode(...bytes.subarray(start, start + CHUNK));
  return btoa(binary);
}

function isMissing(error: unknown): boolean {
  return error instanceof FileSystemError && error.code === 'FileNotFound';
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
