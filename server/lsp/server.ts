/** The language server: one connection, one state, a guard around every message. */
import {
  type Connection,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  ResponseError,
  type WorkspaceFolder,
} from 'vscode-languageserver';
import type { Host } from '../host';
import { serverCapabilities } from './capabilities';
import { createDocuments } from './documents';
import { registerFeatures } from './features';
import { createFileWork, type FileWork } from './files';
import { guardedNotification } from './guard';
import type { InitializationOptions } from './messages';
import { registerOwnRequests } from './own-requests';
import { documentDiagnostics, workspaceDiagnostics } from './pull';
import { readyRequest } from './reading';
import { createState, type ServerState } from './state';
import { Turns } from './turn';
import { createUris } from './uris';

/** Makes the file system, once the client has said what it allows; `uriOf` gives the client's spelling of a key. */
export type HostMaker = (options: InitializationOptions, uriOf: (key: string) => string) => Host;

export function startServer(connection: Connection, hostFor: HostMaker): void {
  let running: Running | null = null;
  connection.onInitialize((params): InitializeResult | ResponseError<{ retry: boolean }> => {
    if (running !== null)
      return new ResponseError(ErrorCodes.InvalidRequest, 'initialize was sent already', { retry: false });
    const options = optionsOf(params.initializationOptions);
    const uris = createUris();
    const state = createState(connection, hostFor(options, uris.uriOf), uris, params.capabilities, options);
    running = run(state, foldersOf(params));
    return {
      capabilities: serverCapabilities(state.encoding),
      serverInfo: { name: 'plimsoll', version: VERSION },
    };
  });
  connection.onInitialized(
    guardedNotification(connection, 'initialized', async () => {
      await running?.start();
    }),
  );
  connection.onShutdown(() => running?.stop());
  connection.onRequest((method: string) => unknown(running !== null, method));
  connection.onNotification(() => undefined);
  connection.listen();
}

/** Kept equal to package.json's by a test. */
export const VERSION = '0.1.0';

interface Running {
  start(): Promise<void>;
  stop(): void;
}

function run(state: ServerState, folders: readonly WorkspaceFolder[]): Running {
  const { connection } = state;
  const turns = new Turns(state);
  const files = createFileWork(state, turns);
  const documents = createDocuments(state, turns, files);
  const note = <Params>(name: string, handle: (params: Params) => void) =>
    guardedNotification(connection, name, handle);
  connection.onDidOpenTextDocument(note('didOpen', documents.opened));
  connection.onDidChangeTextDocument(note('didChange', documents.changed));
  connection.onDidSaveTextDocument(note('didSave', documents.saved));
  connection.onDidCloseTextDocument(note('didClose', documents.closed));
  registerFileEvents(state, files);
  connection.languages.diagnostics.on(
    readyRequest(state, 'diagnostic', (params) => documentDiagnostics(state, turns, params)),
  );
  connection.languages.diagnostics.onWorkspace(
    readyRequest(state, 'workspace/diagnostic', (params, token) => workspaceDiagnostics(state, turns, params, token)),
  );
  registerFeatures(state);
  registerOwnRequests(state, files);
  return {
    start: () => begin(state, files, folders),
    stop: () => {
      state.reading.stop();
      turns.stop();
    },
  };
}

function registerFileEvents(state: ServerState, files: FileWork): void {
  const { connection, uris } = state;
  const note = <Params>(name: string, handle: (params: Params) => void) =>
    guardedNotification(connection, name, handle);
  const changed = (list: readonly string[]) => files.changed(list.flatMap((uri) => uris.keyOf(uri) ?? []));
  connection.onDidChangeWatchedFiles(
    note('didChangeWatchedFiles', ({ changes }) => changed(changes.map(({ uri }) => uri))),
  );
  connection.workspace.onDidCreateFiles(
    note('didCreateFiles', (params) => changed(params.files.map(({ uri }) => uri))),
  );
  connection.workspace.onDidDeleteFiles(
    note('didDeleteFiles', (params) => changed(params.files.map(({ uri }) => uri))),
  );
  connection.workspace.onDidRenameFiles(
    note('didRenameFiles', (params) => changed(params.files.flatMap(({ oldUri, newUri }) => [oldUri, newUri]))),
  );
}

async function begin(state: ServerState, files: FileWork, initial: readonly WorkspaceFolder[]): Promise<void> {
  const { connection, client } = state;
  let folders = initial;
  if (client.workspace?.workspaceFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(
      guardedNotification(connection, 'didChangeWorkspaceFolders', async ({ added, removed }) => {
        const gone = new Set(removed.map(({ uri }) => uri));
        folders = [...folders.filter(({ uri }) => !gone.has(uri)), ...added];
        await files.setFolders(folders);
      }),
    );
  }
  await files.setFolders(folders);
  await files.watch();
}

/** Folders, or what older clients send in their place. */
function foldersOf({ workspaceFolders, rootUri }: InitializeParams): readonly WorkspaceFolder[] {
  if (workspaceFolders) return workspaceFolders;
  return rootUri ? [{ uri: rootUri, name: rootUri }] : [];
}

/** What another client sends is no mistake of its: only what is of use is taken. */
function optionsOf(value: unknown): InitializationOptions {
  if (typeof value !== 'object' || value === null) return {};
  const { commands, git, host } = value as Readonly<Record<string, unknown>>;
  return {
    ...(Array.isArray(commands) && { commands: commands.filter((one) => typeof one === 'string') }),
    ...(typeof git === 'boolean' && { git }),
    ...(typeof host === 'boolean' && { host }),
  };
}

function unknown(isInitialized: boolean, method: string): ResponseError<undefined> {
  return isInitialized
    ? new ResponseError(ErrorCodes.MethodNotFound, `there is no request “${method}”`)
    : new ResponseError(ErrorCodes.ServerNotInitialized, 'initialize comes first');
}
