/** The language server on Node: over standard input and output, a pipe, a socket or node-ipc, as its arguments say. */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { createNodeHost } from '../host-node';
import { startServer } from './server';

startServer(createConnection(ProposedFeatures.all), ({ git }) => createNodeHost({ git: git ?? true }));
