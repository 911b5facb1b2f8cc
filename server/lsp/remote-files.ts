/** Files that the client hands over by requests of our own, for a server that has no file system. */
import type { Connection } from 'vscode-languageserver';
import type { FileRead } from '../host';
import type { RemoteFiles } from '../host-web';
import type { HostRequests } from './messages';

/** @param uriOf the client's spelling of a key */
export function createRemoteFiles(connection: Connection, uriOf: (key: string) => string): RemoteFiles {
  const ask = <Name extends keyof HostRequests>(name: Name, params: HostRequests[Name]['params']) =>
    connection.sendRequest<HostRequests[Name]['result']>(name, params);
  return {
    readFile: (path, most) =>
      ask('plimsoll/host/read', { uri: uriOf(path), most }).then(fileRead, (error) => ({
        type: 'unreadable',
        reason: reasonOf(error),
      })),
    readFolder: (path) =>
      ask('plimsoll/host/list', { uri: uriOf(path) }).then(
        (answer) => ('reason' in answer ? answer : answer.entries),
        (error) => ({ reason: reasonOf(error) }),
      ),
    stat: (path) => ask('plimsoll/host/stat', { uri: uriOf(path) }).catch(() => null),
  };
}

/** For a client that has no files to hand over: only what is open is known. */
export const NO_FILES: RemoteFiles = {
  readFile: async () => ({ type: 'missing' }),
  readFolder: async () => ({ reason: 'the editor hands over no files' }),
  stat: async () => null,
};

function fileRead(answer: HostRequests['plimsoll/host/read']['result']): FileRead {
  if (answer === null) return { type: 'missing' };
  if ('size' in answer) return { type: 'too-large', size: answer.size };
  if ('reason' in answer) return { type: 'unreadable', reason: answer.reason };
  return { type: 'bytes', bytes: Uint8Array.from(atob(answer.base64), (character) => character.charCodeAt(0)) };
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
