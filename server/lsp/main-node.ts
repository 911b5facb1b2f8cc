/** The language server on Node: over standard input and output, a pipe, a socket or node-ipc, as its arguments say. */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { createNodeHost } from '../host-node';
import { createWebHost } from '../host-web';
import { createRemoteFiles } from './remote-files';
import { startServer } from './server';

const connection = createConnection(ProposedFeatures.all);
startServer(connection, ({ git, host }, uriOf) =>
  // A folder that is no place on this machine's disk, in an editor that runs on it.
  host ? createWebHost(createRemoteFiles(connection, uriOf)) : createNodeHost({ git: git ?? true }),
);
