/** The extension where the editor runs on Node: the server is a process of its own. */
import { join } from 'node:path';
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activateWith } from './activation';

export function activate(context: ExtensionContext): void {
  const module = join(context.extensionPath, 'server.js');
  activateWith(context, (options) => {
    const run = { module, transport: TransportKind.ipc };
    return new LanguageClient('plimsoll', 'Plimsoll', { run, debug: run }, options);
  });
}
