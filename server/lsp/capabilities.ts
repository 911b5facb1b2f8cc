/** What the server tells a client that it can do. */
import {
  CodeActionKind,
  type FileOperationRegistrationOptions,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import type { Encoding } from './positions';

/** Files of a product, and folders, which take their files with them. */
const FILE_OPERATIONS: FileOperationRegistrationOptions = {
  filters: [
    { pattern: { glob: '**/*.{md,csv,yaml,yml}', matches: 'file' } },
    { pattern: { glob: '**/*', matches: 'folder' } },
  ],
};

export function serverCapabilities(encoding: Encoding): ServerCapabilities {
  return {
    positionEncoding: encoding,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: { includeText: false } },
    diagnosticProvider: { identifier: 'plimsoll', interFileDependencies: true, workspaceDiagnostics: true },
    hoverProvider: true,
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] },
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: {
        didCreate: FILE_OPERATIONS,
        didRename: FILE_OPERATIONS,
        didDelete: FILE_OPERATIONS,
      },
    },
  };
}
