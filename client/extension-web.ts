/** The extension in a browser: the server is a worker, and the files are those of the editor. */
import { type ExtensionContext, Uri } from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { activateWith } from './activation';
import { answerForFiles, handingOverFiles } from './files';

export function activate(context: ExtensionContext): void {
  const module = Uri.joinPath(context.extensionUri, 'server-web.js').toString(true);
  let worker: Worker | null = null;
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  activateWith(context, (options) => {
    // Each start has a worker of its own, so that one that is stuck can be replaced.
    const start = async () => {
      worker?.terminate();
      worker = new Worker(module);
      return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
    };
    const client = new LanguageClient('plimsoll', 'Plimsoll', start, handingOverFiles(options));
    answerForFiles(client);
    return client;
  });
}
