/** Documents that are opened, typed in, saved and closed in the editor. */
import type {
  DidChangeTextDocumentParams,
  DidCloseTextDocumentParams,
  DidOpenTextDocumentParams,
  DidSaveTextDocumentParams,
} from 'vscode-languageserver';
import { applyChanges } from './buffers';
import type { FileWork } from './files';
import { createPositions } from './positions';
import type { ServerState } from './state';
import type { Turns } from './turn';

export interface Documents {
  opened(params: DidOpenTextDocumentParams): void;
  changed(params: DidChangeTextDocumentParams): void;
  saved(params: DidSaveTextDocumentParams): void;
  closed(params: DidCloseTextDocumentParams): void;
}

export function createDocuments(state: ServerState, turns: Turns, files: FileWork): Documents {
  const { uris, buffers, products, connection } = state;
  const take = (key: string): boolean => {
    const found = products.at(key);
    if (found === null) return false;
    if (products.takeText(found.live, found.path)) turns.note(found.live);
    return true;
  };
  return {
    opened: ({ textDocument: { uri, version, text } }) => {
      const key = uris.keyOf(uri);
      if (key === null) return;
      buffers.set(key, { uri, version, text });
      take(key);
      files.opened(key);
    },
    changed: ({ textDocument: { uri, version }, contentChanges }) => {
      const key = uris.keyOf(uri);
      const buffer = key === null ? undefined : buffers.get(key);
      if (key === null || buffer === undefined) {
        connection.console.warn(`plimsoll: a change of a document that is not open: ${uri}`);
        return;
      }
      const { text, touched } = applyChanges(buffer.text, contentChanges, state.encoding);
      buffers.set(key, { uri, version, text });
      const found = products.at(key);
      if (found !== null) {
        const lines = createPositions(text, state.encoding).linesOf(touched);
        found.live.edit = { file: found.path, lines, at: state.host.now() };
      }
      take(key);
    },
    saved: ({ textDocument: { uri } }) => {
      const key = uris.keyOf(uri);
      if (key !== null) files.changed([key]);
    },
    closed: ({ textDocument: { uri } }) => {
      const key = uris.keyOf(uri);
      if (key === null || !buffers.delete(key)) return;
      const released = products.release(key);
      if (released !== null) turns.drop(released);
      else if (take(key)) files.changed([key]);
    },
  };
}
