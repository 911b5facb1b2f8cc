/** The extension where the editor runs on Node: the server is a process of its own. */
import { join } from 'node:path';
import { type ExtensionContext, workspace } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activateWith } from './activation';
import { answerForFiles, handingOverFiles } from './files';

export function activate(context: ExtensionContext): void {
  const module = join(context.extensionPath, 'server.js');
  activateWith(context, (options) => {
    const run = { module, transport: TransportKind.ipc };
    const server = { run, debug: run };
    if (isOnDisk()) return new LanguageClient('plimsoll', 'Plimsoll', server, options);
    const client = new LanguageClient('plimsoll', 'Plimsoll', server, handingOverFiles(options));
    answerForFiles(client);
    return client;
  });
}

/** Virtual folders are known to the editor alone. */
function isOnDisk(): boolean {
  return (workspace.workspaceFolders ?? []).every(({ uri }) => uri.scheme === 'file');
}
