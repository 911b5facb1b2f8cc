/** The trial panel. */
import { commands, type Disposable, type Uri } from 'vscode';
import type { ServerLink } from '../server-link';

export function registerTrial(_extension: Uri, _link: ServerLink): Disposable {
  return commands.registerCommand('plimsoll.trial', () => undefined);
}
