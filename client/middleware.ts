/** What the user's settings leave out of the server's answers. */
import { workspace } from 'vscode';
import type { Middleware } from 'vscode-languageclient';

export const middleware: Middleware = {
  provideCodeLenses: (document, token, next) => (isOn('codeLens', document) ? next(document, token) : []),
  provideInlayHints: (document, range, token, next) =>
    isOn('inlayHints', document) ? next(document, range, token) : [],
};

function isOn(name: string, { uri }: { readonly uri: Parameters<typeof workspace.getConfiguration>[1] }): boolean {
  return workspace.getConfiguration('plimsoll', uri).get<boolean>(name, true);
}
