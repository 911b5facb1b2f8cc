/** The language server in a browser's worker: messages come and go with `postMessage`, files come from the client. */
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';
import { createWebHost } from '../host-web';
import { createRemoteFiles, NO_FILES } from './remote-files';
import { startServer } from './server';

const connection = createConnection(
  ProposedFeatures.all,
  new BrowserMessageReader(self),
  new BrowserMessageWriter(self),
);
startServer(connection, ({ host }, uriOf) => {
  if (host) return createWebHost(createRemoteFiles(connection, uriOf));
  connection.console.warn('plimsoll: the client answers no plimsoll/host requests: only open documents are read');
  return createWebHost(NO_FILES);
});
