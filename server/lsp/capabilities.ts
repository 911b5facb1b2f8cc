/** What the server tells a client that it can do. */
import {
  CodeActionKind,
  type FileOperationRegistrationOptions,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { TOKEN_TYPES } from '../features/tokens';
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
    definitionProvider: true,
    implementationProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    inlayHintProvider: true,
    codeLensProvider: { resolveProvider: false },
    completionProvider: { resolveProvider: true, triggerCharacters: ['`', '.', '#', ':', '='] },
    renameProvider: { prepareProvider: true },
    foldingRangeProvider: true,
    documentLinkProvider: { resolveProvider: false },
    semanticTokensProvider: {
      legend: { tokenTypes: [...TOKEN_TYPES], tokenModifiers: ['definition'] },
      full: true,
    },
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.Refactor] },
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
